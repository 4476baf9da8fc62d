import type { Reason } from '../../decision/answer-model.ts';
import type { Section, Words } from '../model.ts';
import { clean } from '../phrases.ts';

/** Numbers the evidence behind sentences as they are quoted, so that the text itself stays plain. */
export class Evidence {
  readonly #entries: string[] = [];

  /** A reason's sentence, word for word, with the number of its evidence. */
  quote(reason: Reason): Words {
    const entry = entryOf(reason);
    const known = this.#entries.indexOf(entry);
    if (known < 0) this.#entries.push(entry);
    return [clean(reason.because), { note: known < 0 ? this.#entries.length : known + 1 }];
  }

  /** The list at the end; nothing where nothing was quoted. */
  section(): Section[] {
    if (this.#entries.length === 0) return [];
    return [
      {
        title: 'What our reasons rest on',
        blocks: [{ kind: 'list', ordered: true, items: this.#entries, anchor: 'evidence' }],
      },
    ];
  }
}

/** What kind of source a reason rests on; addresses stand in `rules show --sources`. */
const KINDS: Readonly<Record<Reason['evidence'], string>> = {
  published: 'Published',
  'one account': 'One practitioner’s account',
  'common practice': 'Common practice',
  'studio experience': 'Our own experience',
  assumption: 'An assumption of ours',
};

/** "Published: Canadian Conservation Institute, Notes 13/15." Only institutions are named, and no address. */
function entryOf({ evidence, source, title }: Reason): string {
  const named = evidence === 'published' ? institutionsIn(source) : '';
  return clean(`${title}. ${KINDS[evidence]}${named === '' ? '' : `: ${named}`}.`);
}

/** A web address, with or without a path. */
const ADDRESS = /\b(?:[a-z0-9-]+\.)+[a-z]{2,}(?:\/\S*)?/gi;

/** The parts of a source that are not addresses; a page without a publisher is not named. */
const institutionsIn = (source: string): string =>
  source
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part.search(ADDRESS) !== 0 && !/blogspot/i.test(part))
    .map((part) =>
      part
        .replace(ADDRESS, '')
        .replace(/\s*,\s*(?=,|$|\()/g, ' ')
        .replace(/\(\s*\)/g, '')
        .trim(),
    )
    .filter((part) => part !== '')
    .join('; ');
