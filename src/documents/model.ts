import type { Picture, Tally } from './pictures/picture.ts';

/** A stretch of text: plain, stressed, or the number of an entry in the list of evidence. */
type Run = string | { readonly strong: string } | { readonly note: number };
export type Words = string | readonly Run[];

/** What a document is made of. Each way of rendering answers for every kind; none is a document of its own. */
export type Block =
  | { readonly kind: 'paragraph'; readonly text: Words; readonly tone?: 'lead' | 'small' }
  | { readonly kind: 'subheading'; readonly text: string }
  | List
  | Facts
  | Table
  | Compare
  | { readonly kind: 'picture'; readonly picture: Picture }
  | { readonly kind: 'pictures'; readonly pictures: readonly Picture[] }
  | { readonly kind: 'photo'; readonly data: string; readonly alt: string; readonly caption: string }
  | Choices
  | { readonly kind: 'signatures'; readonly labels: readonly string[] }
  | { readonly kind: 'address'; readonly lines: readonly string[] };

export const paragraph = (text: Words): Block => ({ kind: 'paragraph', text });

/** `anchor` lets numbers in the text lead to its items. */
interface List {
  readonly kind: 'list';
  readonly items: readonly Words[];
  readonly ordered?: boolean;
  readonly anchor?: string;
}

/** Names and what is known of them. */
export interface Facts {
  readonly kind: 'facts';
  readonly caption: string;
  readonly rows: readonly { readonly name: string; readonly text: Words }[];
}

/** Rows of figures; `columns` names every column, the first being that of the rows' names. */
export interface Table {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[];
  /** What it counts, to be held against the other counts of the paper. */
  readonly tally?: Tally;
}

/** Options side by side: every row says the same thing of each of them, in the same order. */
export interface Compare {
  readonly kind: 'compare';
  readonly caption: string;
  readonly options: readonly string[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly (readonly Words[])[] }[];
}

/** Boxes to tick by hand, with `lines` ruled lines to write on. */
interface Choices {
  readonly kind: 'choices';
  readonly question: string;
  readonly options: readonly Words[];
  readonly lines?: number;
}

/** `apart` sets a section off as ours: by a frame and by its title, never by colour alone. */
export interface Section {
  readonly title?: string;
  readonly blocks: readonly Block[];
  readonly apart?: boolean;
  /** Begins a page of its own on paper: for what has to be seen at one glance. */
  readonly page?: boolean;
}

/** A whole document, ready for any of the formats. */
export interface Sheet {
  readonly title: string;
  readonly studio: string | undefined;
  readonly contact: string | undefined;
  /** A picture as a data address. */
  readonly logo: string | undefined;
  /** Case, date, rulebook and validity: on every document. */
  readonly particulars: readonly { readonly name: string; readonly text: string }[];
  readonly sections: readonly Section[];
  readonly foot: string;
}

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
interface StepCurve {
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

export const pageParagraph = (text: string): Piece => ({ kind: 'paragraph', text });
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
