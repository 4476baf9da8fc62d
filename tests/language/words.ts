import { PRESSING } from '../../src/documents/read-texts.ts';

/** A word no client is told, and why not; `never` is the pattern, between word boundaries. */
export interface Unwanted {
  readonly pattern: string;
  readonly why: string;
}

const each = (why: string, patterns: readonly string[]): Unwanted[] =>
  patterns.map((pattern) => ({ pattern, why }));

/**
 * The words of issue 4 ("guaranteed", "safe", "only", "just", …) and their kin. What the program itself refuses in a
 * studio's own texts is part of it, so that both keep to one list.
 */
export const UNWANTED: readonly Unwanted[] = [
  ...each('promises, presses or plays down: refused in a studio’s own texts too', PRESSING),
  ...each('promises what nobody can know', [
    'guarantees?',
    'ensures?',
    'assured?',
    'risk-free',
    'harmless to the quilt',
    'permanent(ly)?',
    'foolproof',
    'always',
    'forever',
    '100 % (safe|sure|certain)',
    '(will|would|can|does|shall) never',
    'never (fails?|tears?|runs?|fades?|needs?|happens?|again)',
    'no risk',
    'certain to',
    'definitely',
    'undoubtedly',
    'completely',
    'totally',
  ]),
  ...each('makes light of the work or of a doubt', [
    'easily done',
    'easy',
    'merely',
    'trivial(ly)?',
    'quick fix',
    'nothing to worry about',
    'no problem',
    'a little thing',
  ]),
  ...each('tells the reader what to think', [
    'clearly',
    'surely',
    'naturally',
    'needless to say',
    'as everybody knows',
    'of course',
    'unfortunately',
    'sadly',
    'beautiful(ly)?',
    'amazing',
    'priceless',
  ]),
  ...each('hedges in the passive: says neither who nor how sure', [
    'it (is|was) (thought|believed|felt|said|considered|assumed|hoped|understood|suggested|recommended) (that|to)',
    '(is|are|was|were) (thought|believed|considered|felt) to',
    'it (may|might|could) be (that|argued|said)',
    'it (would|may|might) (seem|appear)',
    'it (seems|appears) that',
    '(may|might|could|can) (possibly|perhaps|potentially|conceivably|well possibly)',
    'potentially',
    'arguably',
    'somewhat',
    'to some extent',
    'in some sense',
    'more or less',
  ]),
];

const bounded = ({ pattern, why }: Unwanted) => ({
  find: new RegExp(`(?<![\\p{L}-])(?:${pattern})(?![\\p{L}-])`, 'giu'),
  why,
});

const FINDERS = UNWANTED.map(bounded);

/** Unwanted words in a text, each with the reason it is unwanted. */
export const unwantedIn = (text: string): string[] =>
  FINDERS.flatMap(({ find, why }) =>
    [...text.matchAll(find)].map(([word]) => `"${word.toLowerCase()}" ${why}`),
  );
