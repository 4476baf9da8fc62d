import type { Reason } from '../../decision/answer-model.ts';
import { clean } from '../clean.ts';
import type { Section, Words } from '../model.ts';
import { sentenceCase } from '../phrases.ts';

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

/** "Published: a manual, 2019". Where a thing is common practice the source says so already. */
function entryOf({ evidence, source, title }: Reason): string {
  const from = source.startsWith(evidence) ? source : `${evidence}: ${source}`;
  return clean(`${title}. ${sentenceCase(from)}`);
}
