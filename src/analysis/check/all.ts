import type { Check, Examination, Examined } from '../examined.ts';
import { contradictions } from './contradictions.ts';
import { dates } from './dates.ts';
import { gaps } from './gaps.ts';
import { subsumed } from './subsumed.ts';
import { thresholds } from './thresholds.ts';
import { truth } from './truth.ts';
import { unknowable } from './unknowable.ts';

/** Every kind of finding the analysis makes, gravest first. */
export const CHECKS: readonly Check[] = [
  dates,
  truth,
  contradictions,
  unknowable,
  subsumed,
  thresholds,
  gaps,
];

/** What is taken for granted throughout, said with every result. */
const TAKEN =
  'Findings are treated as independent of each other except where needless questions, governing fragility, seams and plan specifications say otherwise.';

export function checkRules(examined: Examined): Examination {
  const all = CHECKS.map((check) => check(examined));
  return {
    remarks: all.flatMap(({ remarks }) => remarks),
    notCovered: [TAKEN, ...all.flatMap(({ notCovered }) => notCovered)],
  };
}
