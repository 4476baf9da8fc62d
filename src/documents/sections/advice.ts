import type { Answer, Reason } from '../../decision/answer-model.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, sentenceCase } from '../phrases.ts';
import type { Evidence } from './evidence.ts';
import { drawnSection, plannedFastenings, plannedHoles, plannedMap } from './quilt-pictures.ts';
import { declinesForHazard } from './safety.ts';

/** As many reasons as a person keeps in mind; the others stand with the evidence. */
const FIRST = 3;

/** Our recommendation, set apart: what, three reasons, and why not the others. */
export function adviceSection(doc: DocumentContext, evidence: Evidence): Section {
  const { answer } = doc;
  return {
    title: 'Our advice',
    apart: true,
    blocks: [
      { kind: 'paragraph', text: [{ strong: headline(doc) }], tone: 'lead' },
      ...answer.cautions.filter(({ first }) => first).map(({ text }) => paragraph(clean(text))),
      ...(answer.provisional ? [paragraph(doc.say('advice.provisional'))] : []),
      ...answer.refused_uses.map((use) => paragraph(doc.say('advice.refused', { use: doc.use(use) }))),
      ...because(answer.reasons, evidence),
      ...ratherThan(doc),
      { kind: 'paragraph', text: doc.say('decision.interest'), tone: 'small' },
    ],
  };
}

/** The advice in one sentence: that of the answer, or of another outcome of it. */
export function headline(
  doc: DocumentContext,
  { standing, treatment }: Pick<Answer, 'standing' | 'treatment'> = doc.answer,
): string {
  if (standing === 'decline' && declinesForHazard(doc)) return doc.say('advice.decline_hazard');
  if (standing === 'refer' || standing === 'decline') return doc.say(`advice.${standing}`);
  if (treatment === null) return doc.say('advice.not_yet_open');
  return doc.say(`advice.${standing}`, { treatment: doc.treatment(treatment) });
}

function because(reasons: readonly Reason[], evidence: Evidence): Block[] {
  const first = reasons.slice(0, FIRST);
  if (first.length === 0) return [];
  return [
    { kind: 'subheading', text: 'Why' },
    { kind: 'list', ordered: true, items: first.map((reason) => evidence.quote(reason)) },
  ];
}

function ratherThan(doc: DocumentContext): Block[] {
  const { rather_than: others, treatment } = doc.answer;
  if (others.length === 0) return [];
  return [
    { kind: 'subheading', text: treatment === null ? 'What we considered' : 'Why not the other ways' },
    {
      kind: 'facts',
      caption: 'The other ways, and what speaks against each',
      rows: others.map((other) => ({
        name: sentenceCase(doc.treatment(other.treatment)),
        text: clean(other.sentence),
      })),
    },
  ];
}

/** The reasons beyond the first three, for whoever wants them all. */
export function furtherReasons(doc: DocumentContext, evidence: Evidence): Section[] {
  const rest = doc.answer.reasons.slice(FIRST);
  if (rest.length === 0) return [];
  return [
    {
      title: 'Further reasons',
      blocks: [{ kind: 'list', items: rest.map((reason) => evidence.quote(reason)) }],
    },
  ];
}

/** What our advice would look like on the quilt. */
export const planSection = (doc: DocumentContext): Section[] =>
  drawnSection('Our advice, drawn on the quilt', [
    plannedMap(doc, 'planned'),
    plannedFastenings(doc, 'fastenings'),
    plannedHoles(doc, 'holes'),
  ]);
