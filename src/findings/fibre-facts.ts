import type { Quilt } from '../casebook/model.ts';
import { anyOf } from './bounds.ts';
import type { Fact } from './fact.ts';
import type { SurveyedQuilt } from './surveyed.ts';

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
