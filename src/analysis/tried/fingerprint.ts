import type { Situation } from '../../decision/situation.ts';
import { stageRules, type Verdicts } from '../../decision/verdicts.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import { judgeCase } from '../judged.ts';

/** What a rulebook makes of one case, in words and figures that can be laid side by side. */
export type Fingerprint = Readonly<Record<Aspect, string>>;

export const ASPECTS = [
  'standing',
  'treatment',
  'plan',
  'provisional',
  'refused uses',
  'rules cited',
  'rules undecided',
  'years',
  'holes',
  'hours',
  'price',
] as const;
export type Aspect = (typeof ASPECTS)[number];

export function fingerprint(situation: Situation, knowledge: Knowledge, verdicts: Verdicts): Fingerprint {
  const judged = judgeCase(situation, stageRules(knowledge.rulebook), knowledge.subjects, verdicts);
  const best = judged.treatment === null ? undefined : situation.options[judged.outcome.best ?? -1];
  const listed = (words: Iterable<string>): string => [...words].sort().join(', ') || 'none';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  const of = (say: (option: NonNullable<typeof best>) => string): string =>
    best === undefined ? 'none' : say(best);
  return {
    standing: judged.standing,
    treatment: judged.treatment ?? 'none',
    plan: of(({ plan }) => plan.id),
    provisional: judged.provisional ? 'yes' : 'no',
    'refused uses': listed(judged.refused_uses),
    'rules cited': listed(judged.cited),
    'rules undecided': listed(judged.undecided),
    years: of(({ estimates: { life } }) => `${round(life.low)} to ${round(life.high)}`),
    holes: of(({ estimates: { holes } }) =>
      round(holes.newOldFace + holes.newOldAllowance + holes.newOldBacking),
    ),
    hours: of(({ estimates: { hours } }) => `${round(hours.low)} to ${round(hours.high)}`),
    price: of(({ estimates: { price } }) => `${round(price.low)} to ${round(price.high)}`),
  };
}
