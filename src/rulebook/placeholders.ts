import type { SubjectKind } from './model.ts';
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
