import fc from 'fast-check';
import type { Pattern } from '../../../src/plans/model.ts';

/** Every way of joining the layers, drawn at random with every pattern it can have. */
export const joinings = fc.oneof(
  fc.constant({ treatment: 'reassemble', joining: 'none', pattern: 'none' } as const),
  fc.record({
    treatment: fc.constant('tie' as const),
    joining: fc.constantFrom('ties' as const, 'tacks' as const),
    pattern: fc.constantFrom<Pattern>('every crossing', 'every second crossing', 'crossings and centres'),
  }),
  fc.record({
    treatment: fc.constant('lines' as const),
    joining: fc.constant('lines' as const),
    pattern: fc.constantFrom<Pattern>('every seam', 'every second seam', 'every seam and mid-unit'),
    directions: fc.constantFrom('both' as const, 'across' as const, 'down' as const),
  }),
);
