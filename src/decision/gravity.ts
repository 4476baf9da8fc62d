import type { Rule, Standing } from '../rulebook/model.ts';

/** Gravest first: decline outranks refer, refer outranks not yet, not yet outranks going ahead. */
const STANDINGS: readonly Standing[] = ['decline', 'refer', 'not_yet', 'go_ahead'];

/** Whether one standing is graver than another. */
export const isGraver = (a: Standing, b: Standing): boolean => STANDINGS.indexOf(a) < STANDINGS.indexOf(b);

/** 0 for the gravest standing a rule can set. */
const gravity = (rule: Rule): number => STANDINGS.indexOf(rule.effects.stand ?? 'go_ahead');

export const byGravity = (a: Rule, b: Rule): number => gravity(a) - gravity(b);
