/** Numbers that look random and are the same on every machine: mulberry32, 32 bits of state. */
export interface Seeded {
  /** Uniform on 0…1, 1 not included. */
  uniform(): number;
  /** Standard normal, by Box and Muller. */
  normal(): number;
}

/** A generator for one purpose. `seed` is any number or text; the same seed gives the same sequence. */
export const seeded = (seed: number | string): Seeded => {
  let state = typeof seed === 'number' ? seed >>> 0 : hash(seed);
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
};

/** FNV-1a over the text's UTF-16 units. */
const hash = (text: string): number => {
  let value = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
  return value >>> 0;
};

/** `count` of the list's entries, each as likely as any other, in the order of the list. */
export const sampleOf = <T>(list: readonly T[], count: number, random: Seeded): T[] => {
  const order = list.map((_, index) => ({ index, key: random.uniform() }));
  order.sort((a, b) => a.key - b.key || a.index - b.index);
  return order
    .slice(0, count)
    .map(({ index }) => index)
    .sort((a, b) => a - b)
    .flatMap((index) => {
      const entry = list[index];
      return entry === undefined ? [] : [entry];
    });
};
