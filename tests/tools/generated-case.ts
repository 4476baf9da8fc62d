import { writeUnits } from '../../src/casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import type { FindingDef, LikelyValue, Vocabulary } from '../../src/findings/vocabulary.ts';
import { type Seeded, seeded } from '../../src/statistics/seeded.ts';
import { type Draft, put } from './skeleton/draft.ts';
import { putStated } from './skeleton/stated.ts';

/** One finding in so many is left unknown, as surveys leave them. */
const UNKNOWN = 1 / 6;
/** Side of a square, in inches. */
const SQUARE = 8;
const LETTERS = ['A', 'B', 'C', 'D'] as const;

/** Findings of a family that its map of fabrics tells already. */
const OF_THE_MAP: readonly string[] = ['share', 'lost'];

/**
 * An invented case, the same for the same seed and number: a quilt of squares edge to edge, 2 by 2 to 10 by 9, in one
 * to four fabrics, mapped unit by unit. Every finding that a case can state is drawn by the likelihoods that
 * findings.yaml gives its values, or left unknown; a third of the cases draws all values alike, so that what is rare
 * comes up too. Findings and values added to findings.yaml are drawn as they stand there.
 */
export function generatedCase(vocabulary: Vocabulary, seed: number, number: number): Draft {
  const random = seeded(`${seed}/${number}`);
  const draw = drawer(random, random.uniform() < 1 / 3);
  const rows = whole(random, 2, 10);
  const columns = whole(random, 2, 9);
  const draft: Draft = { mendwise: 1, case: nameOf(seed, number), opened: '2026-06-01' };
  for (const def of vocabulary.findings.values()) {
    // A plan is not the case's to state, and a survey always says how it looked.
    if (def.per !== 'quilt' || def.likely.length === 0) continue;
    const value = draw(def);
    // No stain is larger than both faces of the quilt.
    const tooLarge = def.kind === 'area' && Number(value) > 2 * rows * columns * SQUARE ** 2;
    if (def.id === 'seen' || (random.uniform() >= UNKNOWN && !tooLarge)) putStated(draft, def, value);
  }
  put(draft, ['quilt', 'size'], {
    width: `${columns * SQUARE} in`,
    height: `${rows * SQUARE} in`,
  });
  put(draft, ['quilt', 'layout'], {
    kind: 'edge to edge',
    rows,
    columns,
    finished: `${SQUARE} in x ${SQUARE} in`,
  });
  const letters = LETTERS.slice(0, whole(random, 1, LETTERS.length));
  for (const letter of letters) put(draft, ['survey', 'families', letter], family(vocabulary, random, draw));
  const map = <T>(cell: () => T): T[][] =>
    Array.from({ length: rows }, () => Array.from({ length: columns }, cell));
  const state = vocabulary.unit.get('state');
  put(draft, ['survey', 'units'], writeUnits(map(() => unitState(state, random))));
  const pick = (): string => letters[Math.floor(random.uniform() * letters.length)] ?? 'A';
  put(
    draft,
    ['survey', 'family_map'],
    map(pick)
      .map((row) => `${row.join(' ')}\n`)
      .join(''),
  );
  if (random.uniform() >= UNKNOWN)
    put(draft, ['survey', 'joins'], joins(random, rows * (columns - 1) + columns * (rows - 1)));
  return draft;
}

export const nameOf = (seed: number, number: number): string => `generated-${seed}-${number}`;

/** The case as a file: JSON is YAML, and quick to write. */
export const textOf = (draft: Draft): string => JSON.stringify(draft);

/** A whole number from `low` to `high`, both included. */
const whole = ({ uniform }: Seeded, low: number, high: number): number =>
  low + Math.floor(uniform() * (high - low + 1));

type Draw = (def: FindingDef) => LikelyValue['value'] | undefined;

const drawer =
  ({ uniform }: Seeded, alike: boolean): Draw =>
  ({ likely }) => {
    const weightOf = ({ weight }: LikelyValue): number => (alike ? 1 : weight);
    let left = uniform() * likely.reduce((sum, each) => sum + weightOf(each), 0);
    for (const each of likely) {
      left -= weightOf(each);
      if (left < 0) return each.value;
    }
    return likely.at(-1)?.value;
  };

function family({ family: defs }: Vocabulary, random: Seeded, draw: Draw): Draft {
  const inner: Draft = {};
  for (const def of defs.values()) {
    if (OF_THE_MAP.includes(def.id) || def.likely.length === 0 || random.uniform() < UNKNOWN) continue;
    // Written under the name it has below its family.
    putStated(inner, { ...def, at: def.at.split('.').slice(3).join('.') }, draw(def));
  }
  return inner;
}

/** States by their own likelihoods whatever the case: with all alike no quilt would have a sound unit to speak of. */
function unitState(def: FindingDef | undefined, random: Seeded): UnitState {
  if (def === undefined || random.uniform() < 0.02) return 'unseen';
  const value = drawer(random, false)(def);
  const name = typeof value === 'number' ? def.options[value]?.value : value;
  return Object.keys(UNIT_STATES).find((state): state is UnitState => state === name) ?? 'unseen';
}

/** Open joins never outnumber those inspected, nor causes the open ones. Most quilts have few, some have many. */
function joins(random: Seeded, total: number): Draft {
  const inspected = whole(random, Math.ceil(total / 3), total);
  const open = Math.floor(inspected * random.uniform() ** 4);
  const thread = whole(random, 0, open);
  const cloth = whole(random, 0, open - thread);
  return { inspected, open, thread, cloth, allowance: open - thread - cloth };
}
