import type { VNode } from 'preact';

/** One mark of a picture's key: how it looks, the letter it bears, and what it means. */
export interface KeyEntry {
  readonly swatch: VNode;
  /** Stands for the swatch where there are no pictures. */
  readonly mark: string;
  readonly words: string;
}

/** A drawing with everything said in words that it shows. */
export interface Picture {
  readonly id: string;
  readonly title: string;
  /** What it shows, for whoever cannot see it. */
  readonly description: string;
  readonly svg: VNode;
  readonly key: readonly KeyEntry[];
  /** The same in letters, a line each, for Markdown and plain text; empty where the description says it all. */
  readonly plain: readonly string[];
}
