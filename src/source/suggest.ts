/** Slips between two words: letters added, left out, changed, or two neighbours swapped (Damerau–Levenshtein, restricted). */
export const slips = (a: string, b: string): number => {
  const wide = b.length + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: wide }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const now = [row];
    for (let column = 1; column < wide; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let best = Math.min(
        (last[column] ?? 0) + 1,
        (now[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      const swapped =
        row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1] && !same;
      if (swapped) best = Math.min(best, (beforeLast[column - 2] ?? 0) + 1);
      now.push(best);
    }
    beforeLast = last;
    last = now;
  }
  return last[b.length] ?? 0;
};

/** Case, dashes, underlines and spaces are how people spell one and the same word. */
const plain = (word: string): string =>
  word
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/**
 * The choice a misspelt word most likely stood for, or nothing where none is near: at most one slip in three
 * letters, or else the one choice that begins with the word. The earliest choice wins a tie.
 */
export const suggest = (word: string, choices: readonly string[]): string | undefined => {
  const asked = plain(word);
  if (asked === '' || asked.length > 60) return undefined;
  let best: string | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (const choice of choices) {
    const target = plain(choice);
    const apart = slips(asked, target);
    const allowed = Math.floor(Math.max(asked.length, target.length) / 3);
    if (apart <= allowed && apart < fewest) {
      best = choice;
      fewest = apart;
    }
  }
  if (best !== undefined || asked.length < 3) return best;
  // A word broken off too early: "regular" for "regular_bed", where only one choice begins so.
  const longer = choices.filter((choice) => plain(choice).startsWith(asked));
  return longer.length === 1 ? longer[0] : undefined;
};
