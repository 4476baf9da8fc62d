/** Words that promise, press or play down: a client should choose without them. */
export const PRESSING = [
  'guarantee',
  'guaranteed',
  'safe',
  'safely',
  'only',
  'just',
  'simply',
  'merely',
  'perfect',
  'perfectly',
  'obviously',
  'of course',
  'don’t worry',
  "don't worry",
  'trust us',
  'as good as new',
  'worthless',
  'must have',
  'bargain',
  'best',
] as const;

const PATTERN = new RegExp(`(?<![\\p{L}-])(${PRESSING.join('|')})(?![\\p{L}-])`, 'giu');

/** Words of that kind in a text, with where they begin. */
export const pressingWords = (text: string): { readonly word: string; readonly at: number }[] =>
  [...text.matchAll(PATTERN)].map((match) => ({ word: match[0], at: match.index }));
