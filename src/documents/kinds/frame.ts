import type { Section, Sheet } from '../model.ts';
import { clean, cleaned } from '../phrases.ts';
import type { Writing } from '../writing.ts';

/** What every document bears: who wrote it, of what, when, by which rules; and how long it stands, where it ends by itself. */
export function frame(
  writing: Writing,
  title: string,
  sections: readonly Section[],
  term?: 'stands until',
): Sheet {
  const { studio } = writing.papers;
  const { answer } = writing;
  const { client } = writing.situation.quiltCase;
  return {
    title: clean(title),
    studio: studio.name === undefined ? undefined : clean(studio.name),
    contact: studio.contact === undefined ? undefined : clean(studio.contact),
    logo: studio.logo,
    particulars: [
      { name: 'Client', text: client.ref === undefined ? 'not known' : clean(client.ref) },
      { name: 'Case', text: clean(answer.case) },
      { name: 'Date', text: writing.date(answer.as_of) },
      ...(term === undefined ? [] : [{ name: 'Stands until', text: writing.date(writing.validUntil) }]),
      { name: 'Rulebook', text: clean(`${answer.rulebook.version} (${answer.rulebook.digest.slice(0, 8)})`) },
    ],
    sections: cleaned(sections),
    foot: `${clean(answer.case)}, ${writing.date(answer.as_of)}`,
  };
}

/** One kind of document: each answers for when it can be written and for what it says. */
export interface Kind {
  readonly name: string;
  readonly summary: string;
  /** Whether it tells what would change the answer, so that this has to be worked out first. */
  readonly questions: boolean;
  /** Why it cannot be written for this answer; undefined where it can. */
  unfit(writing: Writing): string | undefined;
  write(writing: Writing): Sheet;
}
