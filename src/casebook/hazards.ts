import { inOrder } from './current-case.ts';
import type { HazardLook, QuiltCase, TreatedHazard } from './model.ts';
import { HAZARDS, type Hazard } from './scales.ts';

type Findings = HazardLook['findings'];
type Value = number | string | boolean;

/** A finding that shows a hazard: which values do, and the value it has where there is none. */
interface Sign {
  readonly finding: string;
  readonly none: Value;
  shows(value: Value): boolean;
}

const yes = (finding: string): Sign => ({ finding, none: false, shows: (value) => value === true });

/** By which findings of the vocabulary each hazard is noted. */
const SIGNS: Readonly<Record<Hazard, readonly Sign[]>> = {
  mould: [{ finding: 'mould_area', none: 0, shows: (value) => typeof value === 'number' && value > 0 }],
  damp: [yes('damp')],
  insects: [
    yes('live_pests'),
    { finding: 'pest_traces', none: 'none', shows: (value) => value !== 'none' && value !== 'unknown' },
  ],
  rodent_waste: [yes('rodent_waste')],
  sewage_or_fuel: [yes('sewage_or_fuel')],
  poison: [yes('old_green_or_pesticide')],
  smell: [
    { finding: 'odour', none: 'none', shows: (value) => value === 'in_the_room' || value === 'unbearable' },
  ],
};

/** Whether a finding with this value shows a hazard. */
export const showsHazard = (of: string, value: Value): boolean =>
  Object.values(SIGNS).some((signs) => signs.some(({ finding, shows }) => finding === of && shows(value)));

/** Every look at the quilt, whoever's, in the order of their dates: a hazard that one of them notes is in it. */
const looksAt = ({ survey, resurveys, elsewhere = [] }: QuiltCase): HazardLook[] =>
  inOrder(
    [survey, ...inOrder(resurveys), ...elsewhere].map(({ on, findings = {} }) => ({
      ...(on === undefined ? {} : { on }),
      findings,
    })),
  );

const notes = ({ findings }: HazardLook, hazard: Hazard): boolean =>
  SIGNS[hazard].some(({ finding, shows }) => {
    const value = findings[finding];
    return value !== undefined && shows(value);
  });

/** The first and the last look at which a hazard was noted; undefined where it never was. */
export function notedAt(
  quiltCase: QuiltCase,
  hazard: Hazard,
): { readonly first: HazardLook; readonly last: HazardLook } | undefined {
  const noting = looksAt(quiltCase).filter((look) => notes(look, hazard));
  const [first, last] = [noting[0], noting.at(-1)];
  return first === undefined || last === undefined ? undefined : { first, last };
}

/** What is to be made of hazards: what the findings come to, and which hazards went away without a word. */
export interface HazardFindings {
  readonly findings: Findings;
  /** Noted once, no longer noted, and nothing says what was done. */
  readonly withdrawn: readonly Hazard[];
  /** Hazards that somebody tested for, and found. */
  readonly confirmed: readonly Hazard[];
}

/**
 * A hazard counts from the look that notes it until `treated` answers it. A later look that no longer notes it does not
 * lift it: looking never makes a quilt safe. One that notes it again after the treatment brings it back, and a test that
 * found it leaves it where it is.
 */
export function hazardFindings(quiltCase: QuiltCase, latest: Findings): HazardFindings {
  const findings: Record<string, Value> = { ...latest };
  const withdrawn: Hazard[] = [];
  const confirmed: Hazard[] = [];
  for (const hazard of HAZARDS) {
    const noted = notedAt(quiltCase, hazard);
    if (noted === undefined) continue;
    const { last } = noted;
    const answer = (quiltCase.treated ?? [])
      .filter((each) => answers(each, hazard, last))
      .toSorted((a, b) => (a.on < b.on ? -1 : 1))
      .at(-1);
    if (answer?.found === 'present') confirmed.push(hazard);
    const settled = answer !== undefined && isDealtWith(answer);
    if (!settled && !notes({ findings: latest }, hazard)) withdrawn.push(hazard);
    for (const { finding, none, shows } of SIGNS[hazard]) {
      const value = last.findings[finding];
      if (settled && findings[finding] !== undefined) findings[finding] = none;
      else if (!settled && value !== undefined && shows(value)) findings[finding] = value;
    }
  }
  return { findings, withdrawn, confirmed };
}

/** Whether a treatment came after the last look that noted the hazard; on the same day it does. */
const answers = (treated: TreatedHazard, hazard: Hazard, { on }: HazardLook): boolean =>
  treated.hazard === hazard && (on === undefined || treated.on >= on);

/** Poison can only be tested for, never taken out: it is dealt with where it was found harmless, and not otherwise. */
export const isDealtWith = ({ hazard, found }: Pick<TreatedHazard, 'hazard' | 'found'>): boolean =>
  hazard === 'poison' ? found === 'harmless' : found !== 'present';
