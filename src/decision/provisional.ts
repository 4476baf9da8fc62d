import type { Rule } from '../rulebook/model.ts';
import type { Ballot } from './ballot.ts';
import { type Outcome, settle } from './settle.ts';
import type { Situation } from './situation.ts';
import { sameVerdict } from './verdict.ts';

/** Rules that what is not known leaves undecided, for the quilt or for some plan. */
export function undecidedRules({ standings, plans }: Ballot): Rule[] {
  const all = [
    ...standings,
    ...plans.flatMap(({ removals, prefers, avoids }) => [...removals, ...prefers, ...avoids]),
  ];
  return [...new Set(all.filter(({ truth }) => truth === undefined).map(({ rule }) => rule))];
}

/**
 * Undecided rules that would change standing or treatment if they came out true, one at a time; and all of them
 * where only together they would. Each is tried on the outcome itself.
 */
export function opening(situation: Situation, ballot: Ballot, outcome: Outcome): Rule[] {
  const open = undecidedRules(ballot);
  const alone = open.filter(
    (rule) =>
      !sameVerdict(
        outcome,
        settle(situation, ballot, (other) => other === rule),
      ),
  );
  if (alone.length > 0 || open.length < 2) return alone;
  return sameVerdict(
    outcome,
    settle(situation, ballot, () => true),
  )
    ? []
    : open;
}

/** A decline stands on what is true; everything short of it may still fall to what is not known. Photographs never make it firm. */
export function isProvisional({ facts }: Situation, outcome: Outcome, open: readonly Rule[]): boolean {
  const firm = outcome.standing === 'decline' && !outcome.nothingLeft;
  const fromPhotos =
    facts['finding.seen'] === 'photos' && (outcome.standing === 'go_ahead' || outcome.standing === 'not_yet');
  return fromPhotos || (!firm && open.length > 0);
}
