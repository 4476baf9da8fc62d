import { type Ballot, castVotes } from '../decision/ballot.ts';
import { rulesWithAPart } from '../decision/deciding.ts';
import type { Expectable } from '../decision/expectation.ts';
import { Force } from '../decision/force.ts';
import { provisionalOn, undecidedRules } from '../decision/provisional.ts';
import { type Outcome, settle } from '../decision/settle.ts';
import type { Situation } from '../decision/situation.ts';
import { Texts } from '../decision/texts.ts';
import { fastVerdicts, type Verdicts } from '../decision/verdicts.ts';
import { Words } from '../decision/words.ts';
import { once } from '../quantities/once.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Subjects } from '../rulebook/subjects.ts';

/** A case judged on the fast path: what can be expected of the answer, without its sentences. */
export interface Judged extends Expectable {
  readonly outcome: Outcome;
  readonly ballot: Ballot;
  /** Rules that what is not known leaves undecided. */
  readonly undecided: readonly string[];
}

/**
 * Judges a case by the rules of the stages. Rules of units have had their say when it was prepared. `settled` spares
 * the settling where rules differ from those of another judgement in their advice alone.
 */
export function judgeCase(
  situation: Situation,
  rules: readonly Rule[],
  subjects: Subjects,
  verdicts: Verdicts = fastVerdicts(situation),
  settled?: Pick<Judged, 'outcome' | 'ballot'>,
): Judged {
  const force = new Force(rules, verdicts);
  const ballot = settled?.ballot ?? castVotes(situation, rules, force);
  const outcome = settled?.outcome ?? settle(situation, ballot);
  // Sentences are not wanted, only whose they are.
  const texts = new Texts(situation, outcome, rules, force, new Words(subjects, () => ''));
  const recommended = outcome.treatment === null ? undefined : situation.options[outcome.best ?? -1];
  const provisional = once(() => provisionalOn(situation, ballot, outcome));
  const cited = once(
    () =>
      new Set([
        ...rulesWithAPart(rules, force, outcome).map(({ id }) => id),
        ...(recommended?.plan.actions ?? []).flatMap((each) => each.rules),
        ...[
          texts.cautions(),
          texts.of('ask'),
          texts.of('condition'),
          texts.of('offer'),
          texts.outranked(),
        ].flatMap((said) => said.map(({ rule }) => rule)),
      ]),
  );
  return {
    outcome,
    ballot,
    standing: outcome.standing,
    treatment: outcome.treatment,
    refused_uses: situation.refusedUses,
    actions: [...new Set(recommended?.plan.actions.map(({ action }) => action))].filter(
      (action) => action !== 'keep',
    ),
    get undecided() {
      return undecidedRules(ballot).map(({ id }) => id);
    },
    get provisional() {
      return provisional();
    },
    get cited() {
      return cited();
    },
  };
}
