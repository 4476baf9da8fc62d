import type { Facts } from '../findings/fact.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Answer, Safety, SafetyStop } from './answer-model.ts';
import { isGraver, type Settled } from './outcome.ts';
import { traceOf } from './precedence.ts';
import { undecidedTests } from './reasons.ts';
import type { Words } from './wording.ts';

const speaksOfHazard = ({ effects }: Rule): boolean =>
  effects.hazard !== undefined && effects.stand !== undefined;

/** Rules that stop for a hazard and hold here, in the order of the rules. */
export const hazardStops = ({ rules, active }: Pick<Settled, 'rules' | 'active'>): Rule[] =>
  rules.filter((rule) => speaksOfHazard(rule) && active.of(rule, undefined) === true);

/**
 * What stands in the way of touching the quilt: stops for a hazard that hold, and questions on safety that were never
 * answered, so that nobody knows whether such a stop holds.
 */
export function safety(settled: Settled, { findings }: Vocabulary, words: Words): Safety {
  const { situation, rules, active } = settled;
  const sentence = (text: string | undefined): string | null =>
    text === undefined ? null : words.sentence(text, situation.facts);
  // Of two stops for one hazard the graver speaks: how a thing is settled and that it cannot be do not go together.
  const all = hazardStops(settled);
  const gravest = all.filter(
    ({ effects }) =>
      !all.some(
        ({ effects: other }) =>
          other.hazard === effects.hazard && isGraver(other.stand ?? 'go_ahead', effects.stand ?? 'go_ahead'),
      ),
  );
  const stops = gravest.flatMap(
    ({ id, effects: { hazard, meanwhile, settledBy, specialist } }): SafetyStop[] =>
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
  const unanswered = unansweredOn(settled, findings).map((finding) => ({
    finding,
    label: findings.get(finding)?.label ?? finding,
  }));
  const untilAnswered = rules
    .filter((rule) => !speaksOfHazard(rule) && active.of(rule, undefined) === true)
    .flatMap(({ effects }) => sentence(effects.meanwhile) ?? []);
  return { stops, unanswered, until_answered: untilAnswered };
}

/** Questions on safety that were never answered, and on whose answer it hangs whether a stop holds. */
export function unansweredOn(
  { situation, rules, active }: Settled,
  findings: Vocabulary['findings'],
): readonly string[] {
  const waitsFor = (rule: Rule): string[] =>
    undecidedTests(traceOf(rule, situation, undefined))
      .map(({ id }) => id)
      .filter((id) => findings.get(id)?.group === 'safety');
  const undecided = rules.filter((rule) => speaksOfHazard(rule) && active.of(rule, undefined) === undefined);
  return [...new Set(undecided.flatMap(waitsFor))];
}

/** Whether anybody has had the quilt in hand: what photographs show is not enough to take a deposit for. */
export const isSeenInHand = (facts: Facts): boolean => facts['finding.seen'] !== 'photos';

/** Whether anything may be sewn, priced with a deposit, agreed on or handed to a helper, as far as safety goes. */
export const isSafe = ({ safety: { stops, unanswered } }: Pick<Answer, 'safety'>): boolean =>
  stops.length === 0 && unanswered.length === 0;
