import type { SubjectKind, Test } from './model.ts';
import type { Subject, Subjects } from './subjects.ts';

/** `{gap_after}` in a sentence: filled with the plan's, the planned or the found value of that name, in this order. */
const PLACEHOLDER = /\{([^{}]*)\}/g;
const ORDER: readonly SubjectKind[] = ['plan', 'planned', 'finding', 'unit', 'family'];

/** A placeholder may say which it means: `{planned.governing_fragility}`. */
export function placeholderSubject(name: string, subjects: Subjects): Subject | undefined {
  for (const kind of ORDER) {
    const subject = subjects.find(kind, name);
    if (subject !== undefined) return subject;
  }
  const [kind = '', ...rest] = name.split('.');
  return subjects.find(kind as SubjectKind, rest.join('.'));
}

export function placeholderFlaws(text: string, subjects: Subjects): string[] {
  return [...text.matchAll(PLACEHOLDER)]
    .map((match) => match[1] ?? '')
    .filter((name) => placeholderSubject(name, subjects) === undefined)
    .map((name) => `"{${name}}" names nothing that is known`);
}

/** Fills a sentence; `say` answers for one subject. */
export const fillPlaceholders = (
  text: string,
  subjects: Subjects,
  say: (subject: Subject) => string,
): string =>
  text.replace(PLACEHOLDER, (whole, name: string) => {
    const subject = placeholderSubject(name, subjects);
    return subject === undefined ? whole : say(subject);
  });

/**
 * A bare `{loss}` in a rule means what the rule itself looks at: found loss in a rule about found loss, although there
 * is a planned one too. Names that the rule reads in several ways, or not at all, are left as they are.
 */
export const meantBy = (text: string, tests: readonly Test[]): string =>
  text.replace(PLACEHOLDER, (whole, name: string) => {
    const keys = new Set(tests.filter(({ id }) => id === name).map(({ key }) => key));
    const [key] = keys;
    return keys.size === 1 && key !== undefined ? `{${key}}` : whole;
  });
