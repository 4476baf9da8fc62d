import type { Caution, RuleText } from '../../decision/answer-model.ts';
import type { DocumentContext } from '../document-context.ts';
import { paragraph, type Section, type Words } from '../model.ts';
import { clean, listed } from '../phrases.ts';

/** The question to decide, with what the client asked for; it stands before any advice. */
export function questionSection(doc: DocumentContext): Section {
  const wishes = wishesOf(doc);
  const untouched = doc.situation.quiltCase.quilt.must_stay ?? [];
  return {
    title: 'What there is to decide',
    blocks: [
      { kind: 'paragraph', text: doc.say('decision.question') },
      ...(wishes.length === 0 ? [] : [paragraph(doc.say('decision.asked', { wishes: wishes.join('; ') }))]),
      ...(untouched.length === 0
        ? []
        : [paragraph(doc.say('decision.untouched', { units: listed(untouched.map(clean)) }))]),
      {
        kind: 'choices',
        question: doc.say('decision.values'),
        options: doc.items('decision.value_list'),
      },
    ],
  };
}

function wishesOf(doc: DocumentContext): string[] {
  const { client } = doc.situation.quiltCase;
  return [
    ...(client.intended_use === undefined
      ? []
      : [`the quilt is to be ${inUse(doc.use(client.intended_use))}`]),
    ...(client.wish === undefined ? [] : [`it should be ${doc.finding('wish')}`]),
    ...(client.wanted_years === undefined
      ? []
      : [`it should last ${client.wanted_years} ${client.wanted_years === 1 ? 'year' : 'years'}`]),
    ...(client.budget === undefined ? [] : [`you can spend ${doc.money(client.budget)}`]),
    ...(client.hung === true ? ['it will hang'] : []),
  ];
}

/** "used on a guest bed", but "kept in storage". */
export const inUse = (use: string): string => (use.startsWith('kept') ? use : `used ${use}`);

/** The client's own choice and signature. */
export function choiceSection(doc: DocumentContext): Section {
  const options: Words[] = doc.answer.options.map(({ treatment, outcome }) => {
    const name = doc.say(`columns.${treatment}`);
    // Nobody needs our leave to leave a quilt alone.
    const offered = treatment === 'leave' || outcome === 'recommended' || outcome === 'possible';
    return offered ? name : `${name} ${doc.say('decision.not_offered')}`;
  });
  return {
    title: doc.say('decision.choice'),
    blocks: [
      paragraph(doc.say('decision.choice_note')),
      {
        kind: 'choices',
        question: 'I choose:',
        options: [...options, doc.say('decision.undecided'), doc.say('decision.other')],
        lines: 2,
      },
      { kind: 'signatures', labels: doc.items('decision.signatures') },
    ],
  };
}

/** Cautions for those who live with the quilt. */
export const forHome = (cautions: readonly Caution[]): readonly Caution[] =>
  cautions.filter((caution) => caution.for !== 'workroom');

/** Cautions for those who work on it. */
export const forWorkroom = (cautions: readonly Caution[]): readonly Caution[] =>
  cautions.filter((caution) => caution.for !== 'home');

/** Cautions, conditions, questions or offers as a section; left out where there are none. */
export function saidSection(title: string, said: readonly RuleText[]): Section[] {
  if (said.length === 0) return [];
  return [{ title, blocks: [{ kind: 'list', items: said.map(({ text }) => clean(text)) }] }];
}
