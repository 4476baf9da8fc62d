import { GRADES, type Use } from '../../casebook/scales.ts';
import type { Way } from '../../decision/answer-model.ts';
import { type Fact, isSpan } from '../../findings/fact.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, isForecast, yearsRange } from '../phrases.ts';
import { forHome, inUse, saidSection } from '../sections/choice.ts';
import { isHazardous, unsafeReason } from '../sections/safety.ts';
import type { TextKey } from '../slots.ts';
import { frame, type Kind } from './frame.ts';

/** How to live with the quilt. */
export const careSheet: Kind = {
  name: 'care',
  summary: 'how to use, keep and watch the quilt',
  questions: false,
  // What was finished before anybody asked is cared for like the rest.
  unfit: (doc) =>
    isHazardous(doc) || doc.finished === undefined
      ? (unsafeReason(doc) ?? (isWithheld(doc) ? 'what stops it has to be settled first' : undefined))
      : undefined,
  write(doc) {
    return frame(doc, doc.say('care.title'), [
      useSection(doc),
      washingSection(doc),
      ...saidSection(doc.say('care.rules'), forHome((doc.way ?? doc.answer).cautions)),
      {
        title: 'For any old quilt',
        blocks: [
          {
            kind: 'list',
            items: [
              ...doc.items('care.baby'),
              ...doc.items('care.general'),
              ...(hangs(doc) ? doc.items('care.hung') : []),
              ...doc.items('care.keeping'),
            ],
          },
        ],
      },
      ...watchSection(doc),
      {
        title: doc.say('care.return'),
        blocks: returnBlocks(doc),
      },
    ]);
  },
};

/** Whether something other than a hazard stops it: owners who do not agree, or somebody else's claim. */
const isWithheld = ({ papers }: DocumentContext): boolean =>
  papers.decision.outcome.standingRules.some(({ group }) => group === 'stop');

/** What is too fragile to bear its own weight is not hung, whatever was wished. */
const hangs = ({ situation, facts }: DocumentContext): boolean => {
  const grade = facts['planned.governing_fragility'];
  return situation.quiltCase.client.hung === true && grade !== undefined && atWorst(grade) < FRAGILE;
};
const FRAGILE = GRADES.indexOf('fragile');

/** What was done, once it is; till then what was agreed on. */
const done = (doc: DocumentContext): Pick<Way, 'treatment' | 'estimates'> | undefined =>
  doc.finished?.told ?? doc.way;

function useSection(doc: DocumentContext): Section {
  const { answer, situation } = doc;
  const { treatment } = done(doc) ?? {};
  const sewn = treatment !== undefined && treatment !== 'leave';
  const use = situation.use;
  const first = !sewn
    ? doc.say('care.untreated')
    : use === undefined
      ? doc.say('care.no_use')
      : doc.say(doc.finished === undefined ? 'care.meant' : 'care.use', {
          use: inUse(doc.use(use)),
        });
  const life = done(doc)?.estimates.life_years;
  return {
    title: 'Using it',
    blocks: [
      { kind: 'paragraph', text: first },
      ...answer.refused_uses.map(
        (refused: Use) =>
          ({
            kind: 'paragraph',
            text: [{ strong: doc.say('care.refused', { use: doc.use(refused) }) }],
          }) as const,
      ),
      ...(life === undefined || !isForecast(life)
        ? []
        : [{ kind: 'paragraph', text: doc.say('care.years', { years: yearsRange(life) }) } as const]),
    ],
  };
}

/** When to come back, and what is not brought back but asked about first. */
export const returnBlocks = (doc: DocumentContext): Block[] => [
  { kind: 'list', items: doc.items('care.return_list') },
  paragraph(doc.say('care.hazard')),
];

function watchSection(doc: DocumentContext): Section[] {
  const weakest = done(doc)?.estimates.life_years.weakest_link;
  const fabrics = doc.weakFabrics.map(({ name, fragility }) =>
    doc.say('care.fabrics', { grade: doc.grade(fragility), fabric: clean(name) }),
  );
  const items = [
    ...(weakest === undefined ? [] : [doc.say('care.weakest', { part: clean(weakest) })]),
    ...fabrics,
  ];
  return items.length === 0 ? [] : [{ title: doc.say('care.watch'), blocks: [{ kind: 'list', items }] }];
}

/** Whether and how to wash it: the one thing that everybody with a bed quilt asks. */
function washingSection(doc: DocumentContext): Section {
  const key = never(doc);
  const text = key === undefined ? doc.say(way(doc)) : doc.say('care.wash_never', { reason: doc.say(key) });
  return { title: doc.say('care.washing'), blocks: [paragraph(text)] };
}

/** Made in a way that water spoils: embroidered silks and velvets, squares with filling inside. */
const SLOW_TO_DRY: ReadonlySet<string> = new Set(['crazy', 'puffed_squares']);
const WEAK = GRADES.indexOf('weak');
/** The mark on the scale of bleeding from which plain water is enough to make a colour run. */
const RUNS_IN_WATER = 'trace_with_water';

/** Why it is not washed at all; undefined where it may be. What nobody knows of its fibres and grade counts as a reason. */
function never({ facts, situation, papers }: DocumentContext): TextKey | undefined {
  const yes = (id: string): boolean => facts[`finding.${id}`] === true;
  const grade = facts['planned.governing_fragility'] ?? facts['finding.governing_fragility'];
  const bleeds = papers.vocabulary.findings.get('dye_bleed')?.options ?? [];
  const mark = bleeds.findIndex(({ value }) => value === RUNS_IN_WATER);
  if (yes('delicate_fibre') || yes('glazed_or_painted')) return 'care.wash_reasons_fibre';
  if (SLOW_TO_DRY.has(String(facts['finding.construction']))) return 'care.wash_reasons_made';
  if (yes('self_destructing')) return 'care.wash_reasons_fails';
  if (atWorst(facts['finding.dye_bleed']) >= mark && mark > 0) return 'care.wash_reasons_dye';
  if (atBest(grade) >= WEAK) return 'care.wash_reasons_weak';
  if (grade === undefined || atWorst(grade) >= WEAK) return 'care.wash_reasons_unknown';
  const kept = situation.use === undefined || situation.use === 'storage' || situation.use === 'display';
  return kept || situation.quiltCase.client.wish === 'conserve' ? 'care.wash_reasons_kept' : undefined;
}

/** A grade at its worst, as an index; below every grade where it is not known. */
const atWorst = (fact: Fact): number =>
  typeof fact === 'number' ? fact : fact !== undefined && isSpan(fact) ? fact.hi : -1;

/** The same at its best. */
const atBest = (fact: Fact): number => (fact !== undefined && isSpan(fact) ? fact.lo : atWorst(fact));

function way({ facts, papers }: DocumentContext): TextKey {
  if (facts['finding.dye_bleed'] === undefined) return 'care.wash_unknown';
  const planned = facts['finding.washing_planned'];
  const options = papers.vocabulary.findings.get('washing_planned')?.options ?? [];
  return typeof planned === 'number' && options[planned]?.value === 'machine'
    ? 'care.wash_machine'
    : 'care.wash_hand';
}
