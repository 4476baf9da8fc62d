import type { Disagreements } from '../experience/disagreement.ts';

/** What surveys of one quilt disagree on, as data. */
export const disagreementsForScripts = ({ case: of, views, all, onlyTogether }: Disagreements) => ({
  case: of,
  helpers: views.map(({ helper, verdict }) => ({ helper, ...verdict })),
  only_together: onlyTogether,
  disagreements: all.map(({ label, pairs, swings, tried, units }) => ({
    label,
    matters: swings.length > 0,
    mixtures: tried,
    changes: swings,
    units,
    said: pairs.map(({ a, b, topic }) => ({
      helpers: [a, b],
      answers: topic.differences.map(({ finding, thing, a: one, b: other }) => ({
        finding,
        of: thing,
        values: [one.value, other.value],
      })),
    })),
  })),
});
