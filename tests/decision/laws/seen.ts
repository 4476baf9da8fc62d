import type { QuiltCase } from '../../../src/casebook/model.ts';
import type { DecisionContext } from '../../../src/decision/context.ts';
import { evaluate } from '../../../src/decision/evaluate.ts';
import type { Settled } from '../../../src/decision/outcome.ts';
import type { Option } from '../../../src/decision/situation.ts';
import type { Plan } from '../../../src/plans/model.ts';
import type { Standing } from '../../../src/rulebook/model.ts';
import type { Pair } from './pairs.ts';

/** What a case was answered, as far as the laws look at it. */
export interface Seen {
  readonly settled: Settled;
  readonly standing: Standing;
  /** Whether the work is taken on, now or once something is cleared up. */
  readonly offered: boolean;
  readonly option: Option | undefined;
  readonly plan: Plan | undefined;
  /** Rules that prefer the plan, and rules that ask the client or the studio for something. */
  readonly prefers: readonly string[];
  readonly asks: readonly string[];
  /** What it costs to find one more fabric to match: its hours and the least cloth that is cut. */
  readonly search: number;
}

/**
 * What two experienced menders would hold any answer to, whatever the quilt: each law speaks of two cases that differ in
 * one thing, and says what must not happen between them.
 */
export interface Law {
  readonly title: string;
  pairs(quiltCase: QuiltCase): readonly Pair[];
  /** What is wrong between the two, in words; empty where the law holds. */
  broken(from: Seen, to: Seen, pair: Pair): readonly string[];
}

export function see(quiltCase: QuiltCase, context: DecisionContext): Seen {
  const settled = evaluate(quiltCase, context);
  const { outcome, situation, rules, active } = settled;
  const option = outcome.best === undefined ? undefined : situation.options[outcome.best];
  const { standing } = outcome;
  const { figures } = context.knowledge;
  return {
    settled,
    standing,
    offered: standing === 'go_ahead' || standing === 'not_yet',
    option,
    plan: option?.plan,
    prefers:
      outcome.best === undefined
        ? []
        : (outcome.planOutcomes[outcome.best]?.prefers ?? []).map(({ id }) => id),
    asks: rules
      .filter((rule) => rule.effects.ask !== undefined && active.of(rule, outcome.best) === true)
      .map(({ id }) => id),
    search: figures.range('hours.fabric_search').high * context.practice.settings.ratePerHour,
  };
}

export const years = (option: Option | undefined): number => option?.estimator.life().middle ?? 0;

/** Where one quilt breaks a law between two of its variants, a line each; `which` of its pairs, or all. */
export function violations(
  law: Law,
  quiltCase: QuiltCase,
  context: DecisionContext,
  which: (pairs: readonly Pair[]) => readonly Pair[] = (pairs) => pairs,
): { readonly tried: number; readonly found: readonly string[] } {
  const known = new Map<QuiltCase, Seen>();
  const seen = (variant: QuiltCase): Seen => {
    const told = known.get(variant) ?? see(variant, context);
    known.set(variant, told);
    return told;
  };
  const pairs = which(law.pairs(quiltCase));
  return {
    tried: pairs.length,
    found: pairs.flatMap((pair) =>
      law.broken(seen(pair.from), seen(pair.to), pair).map((what) => `${pair.what}: ${what}`),
    ),
  };
}
