import type { Problem } from '../../problems/problem.ts';
import type { Quilt } from '../model.ts';
import { type Check, quilts } from './check.ts';

/** What is said to be none, and the lines that would then have nothing to speak of. */
const PARTS = {
  batting: { said: 'there is no batting', of: ['fibre', 'rated_gap', 'migrated', 'crumbling'] },
  backing: { said: 'there is no backing', of: ['fragility', 'damaged'] },
  joining: { said: 'nothing holds the layers together', of: ['gap', 'missing'] },
} as const;

/** Lines about a part the quilt is said not to have. A share of none and a plain no say the same thing twice. */
export const checkAbsent: Check = (context) =>
  quilts(context).flatMap(({ path, quilt }) =>
    Object.entries(PARTS).flatMap(([name, { said, of }]): Problem[] => {
      const part = quilt[name as keyof Quilt & keyof typeof PARTS];
      if (part?.kind !== 'none') return [];
      const says = (line: string): boolean => {
        const value: unknown = Reflect.get(part, line);
        return value !== undefined && value !== 0 && value !== false;
      };
      return of.filter(says).map((line) => ({
        code: 'suspicious',
        severity: 'warning',
        what: `${said}, yet ${line} is stated`,
        cure: `Take ${line} out, or correct kind.`,
        place: context.source.place([...path, name, line]),
      }));
    }),
  );
