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

/**
 * A fraction from `5 %`, `12.7%`, `0.05` or 0.05. A bare number above 1 is undefined, because 5 may mean 5 % or be a
 * slip; so is anything below 0. A stated percentage above 100 comes back as it is, for the reader's range to refuse.
 */
export const readShare = (value: string | number): number | undefined => {
  if (typeof value === 'number') return value >= 0 && value <= 1 ? value : undefined;
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*(%|percent|per cent)?$/.exec(value.trim().toLowerCase());
  if (match === null) return undefined;
  const number = Number(match[1]);
  // Dividing, not multiplying by 0.01, so that 7 % is the same number as 0.07.
  return match[2] === undefined ? readShare(number) : number / 100;
};

/** `12.7 %`: to a tenth unless told otherwise. RangeError if not finite. */
export const formatShare = (fraction: number, places = 1): string => `${decimal(fraction * 100, places)} %`;

/** The international pound, exact by definition. */
const KG_PER_POUND = 0.45359237;

const POUNDS: UnitTable = {
  lb: 1,
  lbs: 1,
  pound: 1,
  pounds: 1,
  oz: 1 / 16,
  ounce: 1 / 16,
  ounces: 1 / 16,
  kg: 1 / KG_PER_POUND,
  g: 0.001 / KG_PER_POUND,
};

/** Pounds from `3.2 lb`, `3 lb 4 oz`, `1.5 kg`, `900 g`; undefined where there is no number or no unit. */
export const readWeight: (text: string) => number | undefined = measureReader(POUNDS);

/** `3.2 lb` or `1.5 kg`, to a tenth. RangeError if not finite. */
export const formatWeight = (pounds: number, system: MeasureSystem): string =>
  system === 'inches' ? `${decimal(pounds, 1)} lb` : `${decimal(pounds * KG_PER_POUND, 1)} kg`;
