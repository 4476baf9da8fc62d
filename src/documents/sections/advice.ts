import type { Answer } from '../../decision/answer-model.ts';
import { mainReasons } from '../../decision/reasons.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';
import type { Evidence } from './evidence.ts';
import { drawnSection, plannedFastenings, plannedHoles, plannedMap } from './quilt-pictures.ts';
import { declinesForHazard } from './safety.ts';

/** Our recommendation, set apart: what, three reasons, and why not the others. */
export function adviceSection(writing: Writing, evidence: Evidence): Section {
  const { answer } = writing;
  return {
    title: 'Our advice',
    apart: true,
    blocks: [
      { kind: 'paragraph', text: [{ strong: headline(writing) }], tone: 'lead' },
      ...answer.cautions.filter(({ first }) => first).map(({ text }) => paragraph(clean(text))),
      ...(answer.provisional ? [paragraph(writing.say('advice.provisional'))] : []),
      ...answer.refused_uses.map((use) =>
        paragraph(writing.say('advice.refused', { use: writing.use(use) })),
      ),
      ...because(answer, evidence),
      ...ratherThan(writing),
      { kind: 'paragraph', text: writing.say('decision.interest'), tone: 'small' },
    ],
  };
}

/** The advice in one sentence: that of the answer, or of another outcome of it. */
export function headline(
  writing: Writing,
  { standing, treatment }: Pick<Answer, 'standing' | 'treatment'> = writing.answer,
): string {
  if (standing === 'decline' && declinesForHazard(writing)) return writing.say('advice.decline_hazard');
  if (standing === 'refer' || standing === 'decline') return writing.say(`advice.${standing}`);
  if (treatment === null) return writing.say('advice.not_yet_open');
  return writing.say(`advice.${standing}`, { treatment: writing.treatment(treatment) });
}

function because({ reasons, settled_by: settled }: Answer, evidence: Evidence): Block[] {
  const items = [
    ...mainReasons(reasons).map((reason) => evidence.quote(reason)),
    ...(settled === null ? [] : [clean(settled.sentence)]),
  ];
  if (items.length === 0) return [];
  return [
    { kind: 'subheading', text: 'Why' },
    { kind: 'list', ordered: true, items },
  ];
}

function ratherThan(writing: Writing): Block[] {
  const { rather_than: others, treatment } = writing.answer;
  if (others.length === 0) return [];
  return [
    { kind: 'subheading', text: treatment === null ? 'What we considered' : 'Why not the other ways' },
    {
      kind: 'facts',
      caption: 'The other ways, and what speaks against each',
      rows: others.map((other) => ({
        name: sentenceCase(writing.treatment(other.treatment)),
        text: clean(other.sentence),
      })),
    },
  ];
}

/** The other reasons, for whoever wants them all. */
export function furtherReasons(writing: Writing, evidence: Evidence): Section[] {
  const main = mainReasons(writing.answer.reasons);
  const rest = writing.answer.reasons.filter((reason) => !main.includes(reason));
  if (rest.length === 0) return [];
  return [
    {
      title: 'Further reasons',
      blocks: [{ kind: 'list', items: rest.map((reason) => evidence.quote(reason)) }],
    },
  ];
}

/** What our advice would look like on the quilt. */
export const planSection = (writing: Writing): Section[] =>
  drawnSection('Our advice, drawn on the quilt', [
    plannedMap(writing, 'planned'),
    plannedFastenings(writing, 'fastenings'),
    plannedHoles(writing, 'holes'),
  ]);
