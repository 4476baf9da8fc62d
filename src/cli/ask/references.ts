import type { Flaw } from './question.ts';

const REFERENCE = /^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u;

/** A reference is letters, digits and dashes, so that no person's name gets into a case. Undefined where it is one. */
export const badReference = (raw: unknown, where: string): Flaw | undefined => {
  const text = String(raw).trim();
  if (REFERENCE.test(text) && text.length <= 80) return undefined;
  return {
    code: 'bad-name',
    what: `"${text}" cannot be the reference for ${where}`,
    cure: 'Use letters, digits and dashes, such as C-014 or helper-a; never a person’s name.',
  };
};

/** Where references of people stand in a case. */
export const REFERENCES = [
  ['client', 'ref'],
  ['survey', 'by'],
] as const;
