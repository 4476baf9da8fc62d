/** Agreement beyond chance: 1 is perfect, 0 is what chance gives, undefined where everyone gave one and the same answer. */
interface Agreement {
  readonly observed: number;
  readonly expected: number;
  readonly kappa: number | undefined;
}

const beyondChance = (observed: number, expected: number): Agreement => ({
  observed,
  expected,
  kappa: expected < 1 ? (observed - expected) / (1 - expected) : undefined,
});

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/**
 * Cohen's kappa for two observers. `table[i][j]` counts the things the first put in category i and the second in j;
 * counts or proportions both serve. Throws RangeError if the table is empty or not square.
 */
export function cohenKappa(table: readonly (readonly number[])[]): Agreement {
  const all = total(table.map(total));
  if (!(all > 0) || table.some((row) => row.length !== table.length)) {
    throw new RangeError('Cohen’s kappa needs a square table with something in it');
  }
  let agreed = 0;
  let chance = 0;
  for (const [i, row] of table.entries()) {
    agreed += row[i] ?? 0;
    chance += total(row) * total(table.map((other) => other[i] ?? 0));
  }
  return beyondChance(agreed / all, chance / all ** 2);
}

/**
 * Fleiss' kappa for many observers. `counts[i][j]` is how many of them put thing i in category j; each thing must be
 * judged by the same number of observers, two or more. Throws RangeError otherwise.
 */
export function fleissKappa(counts: readonly (readonly number[])[]): Agreement {
  const observers = total(counts[0] ?? []);
  if (observers < 2 || counts.some((row) => total(row) !== observers)) {
    throw new RangeError(
      'Fleiss’ kappa needs the same number of observers, at least two, for everything judged',
    );
  }
  const perThing = counts.map(
    (row) => (total(row.map((n) => n * n)) - observers) / (observers * (observers - 1)),
  );
  const categories = Math.max(...counts.map((row) => row.length));
  const shares = Array.from(
    { length: categories },
    (_, j) => total(counts.map((row) => row[j] ?? 0)) / (counts.length * observers),
  );
  return beyondChance(total(perThing) / counts.length, total(shares.map((share) => share * share)));
}

/** What kind of scale the values stand on; it decides how far apart two values are. */
export type Scale = 'nominal' | 'ordinal' | 'interval' | 'ratio';

/** Squared distance between the values of rank i and j, given all values in order and how often each was paired. */
type Distance = (i: number, j: number, values: readonly number[], marginals: readonly number[]) => number;

const value = (of: readonly number[], i: number): number => of[i] ?? 0;

const DISTANCES: Readonly<Record<Scale, Distance>> = {
  nominal: (i, j) => (i === j ? 0 : 1),
  ordinal: (i, j, _values, marginals) => {
    const [low, high] = i < j ? [i, j] : [j, i];
    let between = -(value(marginals, low) + value(marginals, high)) / 2;
    for (let g = low; g <= high; g++) between += value(marginals, g);
    return between ** 2;
  },
  interval: (i, j, values) => (value(values, i) - value(values, j)) ** 2,
  ratio: (i, j, values) => {
    const sum = value(values, i) + value(values, j);
    return sum === 0 ? 0 : ((value(values, i) - value(values, j)) / sum) ** 2;
  },
};

/**
 * Krippendorff's alpha for any number of observers, missing values allowed. `ratings[o][u]` is what observer o gave
 * unit u, undefined where it was not given; nominal values are any numbers that tell the categories apart. Units
 * judged by fewer than two observers say nothing about agreement and drop out. Undefined where nothing is left or
 * no value ever differs. Krippendorff 2011, "Computing Krippendorff's Alpha-Reliability".
 */
export function krippendorffAlpha(
  ratings: readonly (readonly (number | undefined)[])[],
  scale: Scale,
): number | undefined {
  const units = pairable(ratings);
  const values = [...new Set(units.flat())].sort((a, b) => a - b);
  const marginals = values.map((v) => units.flat().filter((w) => w === v).length);
  const n = units.flat().length;
  const distance = DISTANCES[scale];
  const apart = (i: number, j: number): number => distance(i, j, values, marginals);
  let seen = 0;
  for (const unit of units) {
    const ranks = unit.map((v) => values.indexOf(v));
    for (const i of ranks) for (const j of ranks) seen += apart(i, j) / (unit.length - 1);
  }
  let chance = 0;
  for (const [i, a] of marginals.entries())
    for (const [j, b] of marginals.entries()) chance += a * b * apart(i, j);
  return chance > 0 ? 1 - ((n - 1) * seen) / chance : undefined;
}

function pairable(ratings: readonly (readonly (number | undefined)[])[]): readonly (readonly number[])[] {
  const length = Math.max(0, ...ratings.map((row) => row.length));
  return Array.from({ length }, (_, u) =>
    ratings.map((row) => row[u]).filter((v): v is number => v !== undefined),
  ).filter((unit) => unit.length >= 2);
}
