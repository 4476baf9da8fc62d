import type { QuiltCase } from '../casebook/model.ts';
import { sayValue } from '../findings/say.ts';
import { decimal } from '../quantities/measure.ts';
import { formatMoney } from '../quantities/money.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule } from '../rulebook/model.ts';
import { type Alternative, alternatives } from './alternatives.ts';
import type { Answer, OpenFinding, Reason } from './answer-model.ts';
import { answerEstimates, answerPlan } from './answer-plan.ts';
import { type Ballot, castVotes } from './ballot.ts';
import { isDeciding, rulesWithAPart } from './deciding.ts';
import { Force } from './force.ts';
import { prepare, type StudioPractice } from './prepare.ts';
import { isProvisional, opening } from './provisional.ts';
import { type FigureWords, ratherThan } from './rather-than.ts';
import { reasonFor, unitReasons } from './reasons.ts';
import { type Outcome, settle } from './settle.ts';
import type { Situation } from './situation.ts';
import { leftOpen } from './spoke.ts';
import { Texts } from './texts.ts';
import { recordVerdicts, stageRules, type TracedVerdicts } from './verdicts.ts';
import { type SayFact, Words } from './words.ts';

/** A decision of record with everything it was made from, for documents and sweeps. */
export interface Decision {
  readonly answer: Answer;
  readonly situation: Situation;
  readonly outcome: Outcome;
  readonly verdicts: TracedVerdicts;
  /** Rules that what is not known leaves open and that could still change standing or treatment. */
  readonly open: readonly Rule[];
}

/**
 * The decision of record on a case: prepared, judged by the engine, settled and explained. `asOf` is a date
 * (`YYYY-MM-DD`): rules count that are in force on that day. Same input, same bytes.
 */
export async function decide(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Decision> {
  const current: Knowledge = { ...knowledge, rulebook: inForce(knowledge.rulebook, asOf) };
  const situation = prepare(quiltCase, current, studio, asOf);
  const rules = stageRules(current.rulebook);
  const verdicts = await recordVerdicts(situation, current.rulebook);
  const force = new Force(rules, verdicts);
  const ballot = castVotes(situation, rules, force);
  const outcome = settle(situation, ballot);
  if (outcome.best !== undefined) await verdicts.advise(outcome.best);
  const open = opening(situation, ballot, outcome);
  const answer = explain({ situation, outcome, verdicts, force, ballot, rules, open }, current, studio);
  return { answer, situation, outcome, verdicts, open };
}

interface Settled {
  readonly situation: Situation;
  readonly outcome: Outcome;
  readonly verdicts: TracedVerdicts;
  readonly force: Force;
  readonly ballot: Ballot;
  readonly rules: readonly Rule[];
  readonly open: readonly Rule[];
}

function explain(settled: Settled, knowledge: Knowledge, studio: StudioPractice): Answer {
  const { situation, outcome, force, rules } = settled;
  const { units, currency } = studio.settings;
  const sayFact: SayFact = (subject, fact) =>
    sayValue(
      {
        kind: subject.value,
        options: [...subject.options].map((option) => ({ ...option, anchors: {}, likelihood: undefined })),
        ordered: subject.ordered,
        unit: undefined,
        range: undefined,
      },
      fact,
      { units, currency },
    );
  const words = new Words(knowledge.subjects, sayFact);
  const say: FigureWords = {
    count: (value) => decimal(value, 0),
    money: (value) => formatMoney(value, currency),
    years: (value) => `${decimal(value, 0)} years`,
  };
  const lengthOf = (fact: Parameters<SayFact>[1]): string =>
    sayValue({ kind: 'length', options: [], ordered: false, unit: undefined, range: undefined }, fact, {
      units,
      currency,
    });
  const texts = new Texts(situation, outcome, rules, force, words);
  const best = outcome.treatment === null ? undefined : outcome.best;
  const recommended = best === undefined ? undefined : situation.options[best];
  const all = alternatives(situation, outcome);
  const reasonOf = (rule: Rule, option: number | undefined, deciding: boolean): Reason =>
    reasonFor(
      rule,
      option,
      (option === undefined ? undefined : situation.options[option]?.facts) ?? situation.facts,
      settled.verdicts,
      words,
      deciding,
    );
  const { quiltCase } = situation;
  return {
    schema: 'mendwise/decision@1',
    case: quiltCase.case,
    as_of: situation.asOf,
    rulebook: { version: knowledge.rulebook.version, digest: knowledge.rulebook.digest },
    standing: outcome.standing,
    treatment: outcome.treatment,
    provisional: isProvisional(situation, outcome, settled.open),
    plan: recommended === undefined ? null : answerPlan(recommended.plan, lengthOf),
    refused_uses: situation.refusedUses,
    reasons: [...reasons(settled, reasonOf), ...unitReasons(situation, knowledge, words, recommended)],
    rather_than: all
      .filter((each) => each.outcome !== 'recommended')
      .flatMap((each) => {
        const own = situation.options[each.option];
        return own === undefined
          ? []
          : [ratherThan(each, recommended, own, reasonsAgainst(each, reasonOf), say)];
      }),
    would_change: null,
    check_next: null,
    holds_in: null,
    estimates: recommended === undefined ? null : answerEstimates(recommended.estimates),
    options: all.flatMap((each) => {
      const own = situation.options[each.option];
      if (own === undefined) return [];
      const because = (rule: Rule) => ({ rule: rule.id, text: words.sentence(rule.because, own.facts) });
      return [
        {
          treatment: each.treatment,
          outcome: each.outcome,
          plan: answerPlan(own.plan, lengthOf),
          estimates: answerEstimates(own.estimates),
          for: each.fate.prefers.map(because),
          against: [...each.fate.removedBy, ...each.fate.avoids].map(because),
        },
      ];
    }),
    offers: texts.of('offer'),
    cautions: texts.of('caution'),
    conditions: [...texts.outranked(), ...texts.of('condition')],
    open: openFindings(settled, words),
    asks: texts.of('ask'),
  };
}

/** The findings that rules left open wait for, each once, with those rules. */
function openFindings({ situation, verdicts, open }: Settled, words: Words): OpenFinding[] {
  const found = new Map<string, { label: string; rules: Set<string> }>();
  for (const rule of open) {
    const traces = rule.perPlan
      ? situation.options.map((_, option) => verdicts.trace(rule, option))
      : [verdicts.trace(rule, undefined)];
    for (const test of traces.flatMap((trace) => (trace === undefined ? [] : leftOpen(trace)))) {
      const entry = found.get(test.key) ?? { label: words.subject(test).label, rules: new Set<string>() };
      entry.rules.add(rule.id);
      found.set(test.key, entry);
    }
  }
  return [...found].map(([key, { label, rules }]) => ({
    finding: key.replace(/^finding\./, ''),
    label,
    rules: [...rules],
  }));
}

const reasonsAgainst = (
  each: Alternative,
  reasonOf: (rule: Rule, option: number | undefined, deciding: boolean) => Reason,
): Reason[] => each.reasons.map(({ rule, option }) => reasonOf(rule, option, false));

/** Deciding rules first, then the others that had a part; within both, in stage order. */
function reasons(
  settled: Settled,
  reasonOf: (rule: Rule, option: number | undefined, deciding: boolean) => Reason,
): Reason[] {
  const { situation, outcome, force, ballot, rules } = settled;
  const ours = outcome.treatment === null ? undefined : outcome.best;
  const parts = rulesWithAPart(rules, force, outcome).map((rule) => ({
    rule,
    deciding: isDeciding(rule, situation, ballot, outcome),
    option: optionFor(rule, outcome, ours),
  }));
  return [...parts.filter((part) => part.deciding), ...parts.filter((part) => !part.deciding)].map(
    ({ rule, option, deciding }) => reasonOf(rule, option, deciding),
  );
}

/** The plan a rule is quoted for: ours where it speaks of ours, else the first plan it removed or is avoided for. */
function optionFor(rule: Rule, outcome: Outcome, ours: number | undefined): number | undefined {
  const speaks = (option: number): boolean => {
    const fate = outcome.fates[option];
    return fate !== undefined && [...fate.removedBy, ...fate.prefers, ...fate.avoids].includes(rule);
  };
  if (!rule.perPlan) return ours;
  if (ours !== undefined && speaks(ours)) return ours;
  const other = outcome.fates.findIndex((_, option) => speaks(option));
  return other < 0 ? ours : other;
}
