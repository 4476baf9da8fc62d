/** A piece of a page, for the terminal and for HTML alike. */
export type Piece =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly columns: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | {
      readonly kind: 'steps';
      readonly caption: string;
      readonly curves: readonly StepCurve[];
      /** Years the picture runs to. */
      readonly until: number;
    };

/** A survival curve: the share still whole from each time on. */
export interface StepCurve {
  readonly name: string;
  readonly steps: readonly { readonly time: number; readonly survival: number }[];
  /** Times at which a quilt was last seen whole. */
  readonly censored: readonly number[];
}

export interface PageSection {
  readonly title: string;
  readonly pieces: readonly Piece[];
  /** Stands under the section before it. */
  readonly under?: boolean;
}

export interface Page {
  readonly title: string;
  readonly lead: string;
  readonly sections: readonly PageSection[];
}

export const paragraph = (text: string): Piece => ({ kind: 'paragraph', text });
export const list = (items: readonly string[]): Piece => ({ kind: 'list', items });

/** "1 quilt", "3 quilts". */
export const counted = (count: number, singular: string, plural = `${singular}s`): string =>
  `${count} ${count === 1 ? singular : plural}`;

/** "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** A figure to so many significant digits, without an exponent. */
export const figure = (value: number, digits = 2): string =>
  value === 0 ? '0' : String(Number(value.toPrecision(digits)));

export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
