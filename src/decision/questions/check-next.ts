import type { QuiltCase } from '../../casebook/model.ts';
import type { CheckNext } from '../answer-model.ts';
import { sameVerdict } from '../verdict.ts';
import type { Knob } from './knob.ts';
import type { Trials } from './trials.ts';

/**
 * What is worth finding out: each unknown with the answers it could lead to, the one with most power over the answer
 * first, the cheaper first among equals. Empty where nothing that could still be found out changes it.
 */
export function checkNext(quiltCase: QuiltCase, knobs: readonly Knob[], trials: Trials): CheckNext[] {
  const base = trials.answer(quiltCase);
  const asked = knobs
    .filter((knob) => knob.current === undefined)
    .map((knob) => {
      const leads = knob.likely.map(({ value, weight }) => ({
        value,
        weight,
        verdict: trials.answer(knob.set(quiltCase, value)),
      }));
      const changing = leads.filter(({ verdict }) => !sameVerdict(verdict, base));
      return { knob, changing, power: changing.reduce((sum, { weight }) => sum + weight, 0) };
    });
  return asked
    .filter(({ power }) => power > 0)
    .sort((a, b) => b.power - a.power || a.knob.cost - b.knob.cost || (a.knob.id < b.knob.id ? -1 : 1))
    .map(({ knob, changing, power }) => ({
      finding: knob.id,
      label: knob.label,
      how: knob.how,
      power: Math.round(power * 1000) / 1000,
      could_lead_to: changing.map(({ value, verdict }) => ({
        value: knob.say(value),
        standing: verdict.standing,
        treatment: verdict.treatment,
      })),
    }));
}
