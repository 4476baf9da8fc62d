export interface BattingSize {
  readonly name: string;
  readonly width: number;
  readonly length: number;
}

/** What must be covered: the top and `extra` in on each side. */
export const battingNeed = (
  width: number,
  height: number,
  extra: number,
): { readonly width: number; readonly height: number } => ({
  width: width + 2 * extra,
  height: height + 2 * extra,
});

/** The smallest size as sold that covers `width` × `height`, turned if that helps; undefined where none does. */
export const smallestBatting = (
  need: { readonly width: number; readonly height: number },
  sizes: readonly BattingSize[],
): BattingSize | undefined => {
  const [short, long] = [Math.min(need.width, need.height), Math.max(need.width, need.height)];
  return sizes
    .filter((size) => Math.min(size.width, size.length) >= short && Math.max(size.width, size.length) >= long)
    .sort((a, b) => a.width * a.length - b.width * b.length || (a.name < b.name ? -1 : 1))[0];
};
