/** Agreement beyond chance: 1 is perfect, 0 is what chance gives, undefined where everyone gave one and the same answer. */
export interface Agreement {
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
