/** True, false, or undecided on what is known so far. */
export type Truth = boolean | undefined;

/** Strong Kleene conjunction: one false part settles it, otherwise one undecided part leaves it open. */
export const and = (truths: readonly Truth[]): Truth =>
  truths.includes(false) ? false : truths.includes(undefined) ? undefined : true;

/** Strong Kleene disjunction: one true part settles it. */
export const or = (truths: readonly Truth[]): Truth =>
  truths.includes(true) ? true : truths.includes(undefined) ? undefined : false;

/** The same of two. */
export const both = (a: Truth, b: Truth): Truth =>
  a === false || b === false ? false : a === undefined || b === undefined ? undefined : true;

export const either = (a: Truth, b: Truth): Truth =>
  a === true || b === true ? true : a === undefined || b === undefined ? undefined : false;

export const not = (truth: Truth): Truth => (truth === undefined ? undefined : !truth);
