/** Signs that turn the direction of writing, or show nothing: a name may not rearrange the letter it stands in. */
const UNSEEN = /[\u00AD\u200B-\u200F\u202A-\u202E\u2060-\u2069\uFEFF]/g;

/** One line of text from a case, whatever was typed: line breaks and tabs become blanks. */
export const clean = (text: string): string => text.replace(UNSEEN, '').replace(/\s+/gu, ' ').trim();
