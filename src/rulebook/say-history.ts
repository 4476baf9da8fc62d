import type { Rule } from './model.ts';

/** One earlier wording of a rule, in words. */
export interface SaidWording {
  readonly until: string;
  readonly reason: string;
  /** "when.all.0.at most: 5 %", a line each. */
  readonly changed: readonly string[];
}

/** How a rule came to be, the latest change first. */
export const sayHistory = (rule: Rule): SaidWording[] =>
  [...rule.was].reverse().map(({ until, reason, changed }) => ({
    until,
    reason,
    changed: Object.entries(changed).map(
      ([path, old]) => `${path}: ${old === null ? 'nothing' : sayOld(old)}`,
    ),
  }));

const sayOld = (old: unknown): string => (typeof old === 'string' ? old : JSON.stringify(old));
