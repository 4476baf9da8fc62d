import type { Rule } from './model.ts';

/** Whether a rule has a say in which plan is chosen. */
export const weighsPlans = ({ effects }: Rule): boolean =>
  effects.ruleOut !== undefined ||
  effects.callFor !== undefined ||
  effects.prefer !== undefined ||
  effects.avoid !== undefined;
