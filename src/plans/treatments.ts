import type { Treatment } from '../casebook/scales.ts';
import type { Directions, Pattern, PlanSpec } from './model.ts';

/** What the quilt is made of before anything is done; unknown layers are planned for as if they were there. */
export interface FoundLayers {
  readonly batting: 'none' | 'loose' | 'bonded' | 'needled' | 'unknown';
  readonly backing: 'own' | 'none' | 'unknown';
}

const HANDS = ['hand', 'machine'] as const;

const keptBacking = ({ backing }: FoundLayers): PlanSpec['backing'] => (backing === 'none' ? 'none' : 'keep');
const keptBatting = ({ batting }: FoundLayers): PlanSpec['batting'] => (batting === 'none' ? 'none' : 'keep');
const newBackings = ({ backing }: FoundLayers): PlanSpec['backing'][] =>
  backing === 'none' ? ['add'] : ['add', 'replace'];
const battings = ({ batting }: FoundLayers): PlanSpec['batting'][] =>
  batting === 'none' ? ['none'] : ['keep', 'replace', 'none'];

const base = (treatment: Treatment, layers: FoundLayers): PlanSpec => ({
  treatment,
  joining: 'none',
  backing: keptBacking(layers),
  batting: keptBatting(layers),
  pattern: 'none',
  directions: 'both',
  sewnBy: 'hand',
  newBatting: undefined,
});

/** Every combination of the given choices laid over a base specification. */
function combine(start: PlanSpec, ...choices: readonly (readonly Partial<PlanSpec>[])[]): PlanSpec[] {
  return choices.reduce<PlanSpec[]>(
    (specs, options) => specs.flatMap((spec) => options.map((option) => ({ ...spec, ...option }))),
    [start],
  );
}

const sewn = HANDS.map((sewnBy) => ({ sewnBy }));
const ways = (directions: Directions, ...patterns: Pattern[]): Partial<PlanSpec>[] =>
  patterns.map((pattern) => ({ pattern, directions }));

/** What each treatment can look like on a quilt with these layers: one entry a treatment. */
export const SPECS: Readonly<Record<Treatment, (layers: FoundLayers) => PlanSpec[]>> = {
  leave: (layers) => [base('leave', layers)],
  reassemble: (layers) => combine(base('reassemble', layers), sewn),
  backing: (layers) =>
    combine(
      { ...base('backing', layers), joining: 'tacks' },
      // The old back goes on again where nothing but the filling was amiss.
      [
        ...newBackings(layers).flatMap((backing) =>
          battings(layers).map((batting) => ({ backing, batting })),
        ),
        ...(layers.backing === 'none' || layers.batting === 'none'
          ? []
          : [{ backing: 'keep', batting: 'none' } as const]),
      ],
      ways('both', 'every crossing', 'every second crossing'),
      sewn,
    ),
  tie: (layers) =>
    combine(
      { ...base('tie', layers), joining: 'ties' },
      [keptBacking(layers), ...newBackings(layers)].map((backing) => ({ backing })),
      battings(layers)
        .filter((batting) => layers.batting === 'none' || batting !== 'none')
        .map((batting) => ({ batting })),
      ways('both', 'every crossing', 'every second crossing', 'crossings and centres'),
      sewn,
    ),
  lines: (layers) =>
    combine(
      { ...base('lines', layers), joining: 'lines' },
      [keptBacking(layers), ...newBackings(layers)].map((backing) => ({ backing })),
      battings(layers).map((batting) => ({ batting })),
      [
        ...ways('both', 'every seam', 'every second seam', 'every seam and mid-unit'),
        ...ways('across', 'every seam', 'every seam and mid-unit'),
        ...ways('down', 'every seam', 'every seam and mid-unit'),
      ],
      sewn,
    ),
};
