import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Safety, SafetyStop } from './answer-model.ts';
import type { Settled } from './settled.ts';
import { leftOpen } from './spoke.ts';
import { traceOf } from './verdicts.ts';
import type { Words } from './words.ts';

/**
 * What stands in the way of touching the quilt: stops for a hazard that hold, and questions on safety that were never
 * answered, so that nobody knows whether such a stop holds.
 */
export function safety({ situation, rules, force }: Settled, { findings }: Vocabulary, words: Words): Safety {
  const hazardous = rules.filter(
    ({ effects }) => effects.hazard !== undefined && effects.stand !== undefined,
  );
  const sentence = (text: string | undefined): string | null =>
    text === undefined ? null : words.sentence(text, situation.facts);
  const stops = hazardous
    .filter((rule) => force.of(rule, undefined) === true)
    .flatMap(({ id, effects: { hazard, meanwhile, settledBy, specialist } }): SafetyStop[] =>
      hazard === undefined
        ? []
        : [
            {
              rule: id,
              hazard,
              meanwhile: sentence(meanwhile),
              settled_by: sentence(settledBy),
              ask_others: sentence(specialist),
            },
          ],
    );
  const waitsFor = (rule: Rule): string[] => {
    return leftOpen(traceOf(rule, situation, undefined))
      .map(({ id }) => id)
      .filter((id) => findings.get(id)?.group === 'safety');
  };
  const undecided = hazardous.filter((rule) => force.of(rule, undefined) === undefined);
  const unanswered = [...new Set(undecided.flatMap(waitsFor))].map((finding) => ({
    finding,
    label: findings.get(finding)?.label ?? finding,
  }));
  return { stops, unanswered };
}
