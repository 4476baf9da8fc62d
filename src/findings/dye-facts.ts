import type { Quilt } from '../casebook/model.ts';
import { anyOf, type Fact, shareBetween } from './fact.ts';
import { type Cloth, isLeft, leftOf } from './old-cloth.ts';
import type { SurveyedQuilt } from './surveyed.ts';

/** Rubs off dry: the last of the five marks of a dye test. */
const WORST_BLEED = 4;

/** The worst colour of the cloth that stays in the quilt; undefined where no colour was tested and none need be good. */
const worstBleed = (quilt: SurveyedQuilt, staying: Cloth): Fact => {
  const families = Object.values(quilt.families).map((family) => ({
    bleed: typeof family.dyeBleed === 'number' ? family.dyeBleed : undefined,
    left: isLeft(staying, family.letter),
  }));
  const there = families.filter(({ left }) => left !== false);
  const lo = Math.max(0, ...there.flatMap(({ bleed, left }) => (left === true ? (bleed ?? 0) : [])));
  const untested = families.length === 0 || there.some(({ bleed }) => bleed === undefined);
  const hi = untested ? WORST_BLEED : Math.max(0, ...there.map(({ bleed }) => bleed ?? 0));
  if (lo === hi) return lo;
  return lo === 0 && hi === WORST_BLEED ? undefined : { lo, hi };
};

/** Dyes and weightings that destroy their own cloth, in the cloth that still carries. */
const selfDestruction = (
  quilt: SurveyedQuilt,
  cloth: Cloth,
): { readonly self_destructing: Fact; readonly self_destructing_share: Fact } => {
  const families = Object.values(quilt.families);
  if (families.length === 0) return { self_destructing: undefined, self_destructing_share: undefined };
  const any = anyOf(
    families.map(({ letter, selfDestructing }) => {
      const left = isLeft(cloth, letter);
      if (left === false || selfDestructing === false) return false;
      return left === true ? selfDestructing : undefined;
    }),
  );
  const share = leftOf(cloth, ({ family }) => {
    const known = quilt.families[family ?? ''];
    return {
      sure: known?.selfDestructing === true,
      can: known !== undefined && known.selfDestructing !== false,
    };
  });
  return { self_destructing: any, self_destructing_share: shareBetween(share.lo, share.hi) };
};

/**
 * Dyes by finding id. `cloth` is the old cloth that still carries; `staying` all of it that is left in the quilt,
 * under patches too, because what is covered can still bleed.
 */
export const dyeFacts = (
  quilt: SurveyedQuilt,
  cloth: Cloth,
  staying: Cloth,
): Readonly<Record<string, Fact>> => ({
  dye_bleed: worstBleed(quilt, staying),
  ...selfDestruction(quilt, cloth),
});

/** Constructions that are knits by definition. */
const KNITS: ReadonlySet<string> = new Set(['t_shirt', 'double_knit']);

/** Fibres present. A fibre nobody identified is never taken for a harmless one: it is unknown, and delicate. */
export const fibreFacts = (
  quilt: SurveyedQuilt,
  batting: Quilt['batting'],
): Readonly<Record<string, Fact>> => {
  const fibres = Object.values(quilt.families).map(({ fibre }) => fibre);
  const unknown = fibres.length === 0 || fibres.includes('unknown');
  const present = (fibre: string): boolean | undefined => {
    if (fibres.some((each) => each === fibre)) return true;
    return unknown ? undefined : false;
  };
  const filling = batting?.fibre;
  const woolFilling =
    batting?.kind === 'none'
      ? false
      : filling === undefined || filling === 'unknown'
        ? undefined
        : filling === 'wool';
  return {
    silk_present: present('silk'),
    wool_present: anyOf([present('wool'), woolFilling]),
    knit_present: KNITS.has(quilt.construction ?? '') ? true : present('knit'),
    unknown_fibre: unknown,
    delicate_fibre: unknown || fibres.includes('silk') || fibres.includes('wool'),
  };
};
