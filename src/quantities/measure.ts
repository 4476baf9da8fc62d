/** Names of a unit and its size in the base unit. */
export type UnitTable = Readonly<Record<string, number>>;

const AMOUNT = /(?:(\d+)[\s-]+)?(\d+)\/(\d+)|(\d+(?:\.\d+)?|\.\d+)/y;

/** ½ becomes 1/2 (4½ becomes 4 1/2), ² becomes 2, and every prime or curly quote its plain form. */
const plain = (text: string): string =>
  text
    .replace(/[¼-¾⅐-⅞]/g, (mark) => ` ${mark.normalize('NFKC')}`)
    .replace(/[⁄∕]/g, '/')
    .replace(/²/g, '2')
    .replace(/″|′′|''|[“”]/g, '"')
    .replace(/[′‘’]/g, "'")
    .toLowerCase()
    .trim();

const escaped = (name: string): string => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '\\s+');

const unitPattern = (units: UnitTable): RegExp => {
  const names = Object.keys(units).sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return new RegExp(`\\s*(${names.map(escaped).join('|')})(?:(?<=["'])|\\.?(?![a-z0-9]))\\s*`, 'y');
};

const amountOf = (match: RegExpExecArray): number | undefined => {
  const [, whole, top, bottom, decimal] = match;
  if (decimal !== undefined) return Number(decimal);
  const value = Number(whole ?? 0) + Number(top) / Number(bottom);
  return Number.isFinite(value) ? value : undefined;
};

/**
 * Makes a reader of `4 1/2 in` or, in falling units, `3 lb 4 oz`: whole, decimal or common fraction with a unit.
 * The reader gives the base unit, or undefined for anything else: a bare number, a sign, a unit not in the table.
 */
export const measureReader = (units: UnitTable): ((text: string) => number | undefined) => {
  const pattern = unitPattern(units);
  return (text) => {
    const input = plain(text);
    let at = 0;
    let sum: number | undefined;
    let previous = Number.POSITIVE_INFINITY;
    while (at < input.length) {
      AMOUNT.lastIndex = at;
      const amount = AMOUNT.exec(input);
      if (amount === null) return undefined;
      pattern.lastIndex = AMOUNT.lastIndex;
      const unit = pattern.exec(input);
      const value = amountOf(amount);
      const factor = units[unit?.[1]?.replace(/\s+/g, ' ') ?? ''];
      if (factor === undefined || value === undefined || factor >= previous) return undefined;
      sum = (sum ?? 0) + value * factor;
      previous = factor;
      at = pattern.lastIndex;
    }
    return sum;
  };
};

/** A number with at most `places` decimals and no trailing zeros. */
export const decimal = (value: number, places: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`Not a measure: ${value}`);
  const fixed = value.toFixed(places);
  const short = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
};

/** The two ways a studio may show measures. */
export type MeasureSystem = 'inches' | 'metric';
