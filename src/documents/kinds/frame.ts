import type { DocumentContext } from '../document-context.ts';
import type { Section, Sheet } from '../model.ts';
import { clean, cleaned } from '../phrases.ts';
import type { Tally } from '../pictures/picture.ts';
import { compareTallies, FOUND, tallyOf } from '../tally.ts';

/** What every document bears: who wrote it, of what, when, by which rules; and how long it stands, where it ends by itself. */
export function frame(
  doc: DocumentContext,
  title: string,
  sections: readonly Section[],
  term?: 'stands until',
): Sheet {
  compareTallies(sections, (of) => onRecord(doc, of));
  const { studio } = doc.papers;
  const { answer } = doc;
  const { client } = doc.situation.quiltCase;
  return {
    title: clean(title),
    studio: studio.name === undefined ? undefined : clean(studio.name),
    contact: studio.contact === undefined ? undefined : clean(studio.contact),
    logo: studio.logo,
    particulars: [
      { name: 'Client', text: client.ref === undefined ? 'not known' : clean(client.ref) },
      { name: 'Case', text: clean(answer.case) },
      { name: 'Date', text: doc.date(answer.as_of) },
      ...(term === undefined ? [] : [{ name: 'Stands until', text: doc.date(doc.validUntil) }]),
      { name: 'Rulebook', text: clean(`${answer.rulebook.version} (${answer.rulebook.digest.slice(0, 8)})`) },
    ],
    sections: cleaned(sections),
    foot: `${clean(answer.case)}, ${doc.date(answer.as_of)}`,
  };
}

/** What the case and its plans hold: every drawing, list and count of a paper has to come out the same. */
function onRecord({ situation, agreed }: DocumentContext, of: string): Tally | undefined {
  const { quilt, options } = situation;
  if (of === FOUND)
    return tallyOf(
      of,
      quilt.groups,
      ({ state }) => state,
      ({ count }) => count,
    );
  const plan = agreed?.plan.id === of ? agreed.plan : options.find((option) => option.plan.id === of)?.plan;
  return (
    plan &&
    tallyOf(
      of,
      plan.actions,
      ({ action }) => action,
      ({ group }) => group.count,
    )
  );
}

/** One kind of document: each answers for when it can be written and for what it says. */
export interface Kind {
  readonly name: string;
  readonly summary: string;
  /** Whether it tells what would change the answer, so that this has to be worked out first. */
  readonly questions: boolean;
  /** Why it cannot be written for this answer; undefined where it can. */
  unfit(doc: DocumentContext): string | undefined;
  write(doc: DocumentContext): Sheet;
}
