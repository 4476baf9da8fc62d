import { GRADES } from '../../casebook/scales.ts';
import { type Fact, isSpan } from '../../findings/fact.ts';
import { paragraph, type Section } from '../model.ts';
import type { TextKey } from '../texts/slots.ts';
import type { Writing } from '../writing.ts';

/** Whether and how to wash it: the one thing that everybody with a bed quilt asks. */
export function washingSection(writing: Writing): Section {
  const key = never(writing);
  const text =
    key === undefined
      ? writing.say(way(writing))
      : writing.say('care.wash_never', { reason: writing.say(key) });
  return { title: writing.say('care.washing'), blocks: [paragraph(text)] };
}

/** Made in a way that water spoils: embroidered silks and velvets, squares with filling inside. */
const SLOW_TO_DRY: ReadonlySet<string> = new Set(['crazy', 'puffed_squares']);
const WEAK = GRADES.indexOf('weak');
/** The mark on the scale of bleeding from which plain water is enough to make a colour run. */
const RUNS_IN_WATER = 'trace_with_water';

/** Why it is not washed at all; undefined where it may be. What nobody knows of its fibres and grade counts as a reason. */
function never({ facts, situation, papers }: Writing): TextKey | undefined {
  const yes = (id: string): boolean => facts[`finding.${id}`] === true;
  const grade = facts['planned.governing_fragility'] ?? facts['finding.governing_fragility'];
  const bleeds = papers.vocabulary.findings.get('dye_bleed')?.options ?? [];
  const mark = bleeds.findIndex(({ value }) => value === RUNS_IN_WATER);
  if (yes('delicate_fibre') || yes('glazed_or_painted')) return 'care.wash_reasons_fibre';
  if (SLOW_TO_DRY.has(String(facts['finding.construction']))) return 'care.wash_reasons_made';
  if (yes('self_destructing')) return 'care.wash_reasons_fails';
  if (atWorst(facts['finding.dye_bleed']) >= mark && mark > 0) return 'care.wash_reasons_dye';
  if (grade === undefined || atWorst(grade) >= WEAK) return 'care.wash_reasons_weak';
  const kept = situation.use === undefined || situation.use === 'storage' || situation.use === 'display';
  return kept || situation.quiltCase.client.wish === 'conserve' ? 'care.wash_reasons_kept' : undefined;
}

/** A grade at its worst, as an index; below every grade where it is not known. */
export const atWorst = (fact: Fact): number =>
  typeof fact === 'number' ? fact : fact !== undefined && isSpan(fact) ? fact.hi : -1;

function way({ facts, papers }: Writing): TextKey {
  if (facts['finding.dye_bleed'] === undefined) return 'care.wash_unknown';
  const planned = facts['finding.washing_planned'];
  const options = papers.vocabulary.findings.get('washing_planned')?.options ?? [];
  return typeof planned === 'number' && options[planned]?.value === 'machine'
    ? 'care.wash_machine'
    : 'care.wash_hand';
}
