import type { Caution, Said } from '../../decision/answer-model.ts';
import { paragraph, type Section, type Words } from '../model.ts';
import { clean, listed } from '../phrases.ts';
import type { Writing } from '../writing.ts';

/** The question to decide, with what the client asked for; it stands before any advice. */
export function questionSection(writing: Writing): Section {
  const wishes = wishesOf(writing);
  const untouched = writing.situation.quiltCase.quilt.must_stay ?? [];
  return {
    title: 'What there is to decide',
    blocks: [
      { kind: 'paragraph', text: writing.say('decision.question') },
      ...(wishes.length === 0
        ? []
        : [paragraph(writing.say('decision.asked', { wishes: wishes.join('; ') }))]),
      ...(untouched.length === 0
        ? []
        : [paragraph(writing.say('decision.untouched', { units: listed(untouched.map(clean)) }))]),
      {
        kind: 'choices',
        question: writing.say('decision.values'),
        options: writing.items('decision.value_list'),
      },
    ],
  };
}

function wishesOf(writing: Writing): string[] {
  const { client } = writing.situation.quiltCase;
  return [
    ...(client.intended_use === undefined
      ? []
      : [`the quilt is to be ${inUse(writing.use(client.intended_use))}`]),
    ...(client.wish === undefined ? [] : [`it should be ${writing.finding('wish')}`]),
    ...(client.wanted_years === undefined
      ? []
      : [`it should last ${client.wanted_years} ${client.wanted_years === 1 ? 'year' : 'years'}`]),
    ...(client.budget === undefined ? [] : [`you can spend ${writing.money(client.budget)}`]),
    ...(client.hung === true ? ['it will hang'] : []),
  ];
}

/** "used on a guest bed", but "kept in storage". */
export const inUse = (use: string): string => (use.startsWith('kept') ? use : `used ${use}`);

/** The client's own choice and signature. */
export function choiceSection(writing: Writing): Section {
  const options: Words[] = writing.answer.options.map(({ treatment, outcome }) => {
    const name = writing.say(`columns.${treatment}`);
    // Nobody needs our leave to leave a quilt alone.
    const offered = treatment === 'leave' || outcome === 'recommended' || outcome === 'possible';
    return offered ? name : `${name} ${writing.say('decision.not_offered')}`;
  });
  return {
    title: writing.say('decision.choice'),
    blocks: [
      paragraph(writing.say('decision.choice_note')),
      {
        kind: 'choices',
        question: 'I choose:',
        options: [...options, writing.say('decision.undecided'), writing.say('decision.other')],
        lines: 2,
      },
      { kind: 'signatures', labels: writing.items('decision.signatures') },
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
export function saidSection(title: string, said: readonly Said[]): Section[] {
  if (said.length === 0) return [];
  return [{ title, blocks: [{ kind: 'list', items: said.map(({ text }) => clean(text)) }] }];
}
