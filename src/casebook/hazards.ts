import { inOrder } from './current-case.ts';
import type { HazardLook, QuiltCase, TreatedHazard } from './model.ts';
import { HAZARDS, type Hazard } from './scales.ts';

type Findings = HazardLook['findings'];
type Value = number | string | boolean;

/** A finding that shows a hazard, the value it has where there is none, and how much of it a value shows. */
interface Sign {
  readonly finding: string;
  readonly none: Value;
  /** Nothing where the value shows no hazard. */
  size(value: Value): number;
}

const yes = (finding: string): Sign => ({ finding, none: false, size: (value) => (value === true ? 1 : 0) });
const asNumber = (value: Value): number => (typeof value === 'number' ? value : 0);
const SMELLS: readonly Value[] = ['in_the_room', 'unbearable'];

/** By which findings of the vocabulary each hazard is noted. */
const SIGNS: Readonly<Record<Hazard, readonly Sign[]>> = {
  mould: [{ finding: 'mould_area', none: 0, size: asNumber }],
  damp: [yes('damp')],
  insects: [
    yes('live_pests'),
    {
      finding: 'pest_traces',
      none: 'none',
      size: (value) => (value === 'none' || value === 'unknown' ? 0 : value === 'cast_skins' ? 1 : 2),
    },
  ],
  rodent_waste: [yes('rodent_waste')],
  sewage_or_fuel: [yes('sewage_or_fuel')],
  poison: [yes('old_green_or_pesticide')],
  smell: [{ finding: 'odour', none: 'none', size: (value) => SMELLS.indexOf(value) + 1 }],
};

/**
 * Every look at the quilt, whoever's, in the order of their dates: a hazard that one of them notes is in it. What was
 * told in a first message was told on the day the case was opened.
 */
const looksAt = ({ survey, opened, resurveys, elsewhere = [] }: QuiltCase): HazardLook[] => {
  const on = survey.on ?? (survey.seen === 'photos' ? opened : undefined);
  const first = { ...survey, ...(on === undefined ? {} : { on }) };
  return inOrder([first, ...inOrder(resurveys), ...elsewhere]).map(({ on: day, by, findings = {} }) => ({
    ...(day === undefined ? {} : { on: day }),
    ...(by === undefined ? {} : { by }),
    findings,
  }));
};

const sizeIn = (findings: Findings, { finding, size }: Sign): number => {
  const value = findings[finding];
  return value === undefined ? 0 : size(value);
};

const notes = (findings: Findings, hazard: Hazard): boolean =>
  SIGNS[hazard].some((sign) => sizeIn(findings, sign) > 0);

/** Looks at which a hazard was noted, the first one first. */
export const notingLooks = (quiltCase: QuiltCase, hazard: Hazard): readonly HazardLook[] =>
  looksAt(quiltCase).filter(({ findings }) => notes(findings, hazard));

/**
 * Looks whose hazard nothing answers: nothing was done about it after them. On one day a treatment comes after the look
 * that noted the hazard first, or there would have been nothing to treat. Of any other look of that day, and of one
 * without a day, nobody can say whether it came before, so its stop holds.
 */
export const standingLooks = (quiltCase: QuiltCase, hazard: Hazard): readonly HazardLook[] =>
  notingLooks(quiltCase, hazard).filter(({ on }, index) => {
    const after = (quiltCase.treated ?? [])
      .filter((each) => each.hazard === hazard && on !== undefined)
      .filter((each) => each.on > (on ?? '') || (each.on === on && index === 0))
      .sort((a, b) => (a.on < b.on ? -1 : 1));
    const last = after.at(-1);
    return last === undefined || !isDealtWith(last);
  });

/** What is to be made of hazards: what the findings come to, and which hazards went away without a word. */
export interface HazardFindings {
  readonly findings: Findings;
  /** Noted once, no longer noted, and nothing says what was done. */
  readonly withdrawn: readonly Hazard[];
  /** Hazards that somebody tested for, and found. */
  readonly confirmed: readonly Hazard[];
}

/**
 * A hazard counts from the look that notes it until `treated` answers it, and as the worst such look has it. A later look
 * that notes less of it, or none, does not lift it: looking never makes a quilt safe. One that notes it again after the
 * treatment brings it back, and a test that found it leaves it where it is.
 */
export function hazardFindings(quiltCase: QuiltCase, latest: Findings): HazardFindings {
  const findings: Record<string, Value> = { ...latest };
  const withdrawn: Hazard[] = [];
  const confirmed: Hazard[] = [];
  for (const hazard of HAZARDS) {
    const standing = standingLooks(quiltCase, hazard);
    const tests = (quiltCase.treated ?? []).filter((each) => each.hazard === hazard);
    if (standing.length > 0 && tests.some(({ found }) => found === 'present')) confirmed.push(hazard);
    if (standing.length > 0 && !notes(latest, hazard)) withdrawn.push(hazard);
    for (const sign of SIGNS[hazard]) {
      const worst = standing
        .map((look) => look.findings)
        .reduce((most, each) => (sizeIn(each, sign) > sizeIn(most, sign) ? each : most), {});
      const value = worst[sign.finding];
      if (value !== undefined) findings[sign.finding] = value;
      else if (sizeIn(findings, sign) > 0) findings[sign.finding] = sign.none;
    }
  }
  return { findings, withdrawn, confirmed };
}

/** Findings by which hazards are noted, and how much of it each shows; nothing where it is not known. */
export const HAZARD_SIGNS = HAZARDS.flatMap((hazard) =>
  SIGNS[hazard].map(({ finding, size }) => ({
    hazard,
    finding,
    size: (value: Value | undefined): number => (value === undefined ? 0 : size(value)),
  })),
);

/** Whether a finding with this value shows a hazard. */
export const showsHazard = (of: string, value: Value): boolean =>
  HAZARD_SIGNS.some(({ finding, size }) => finding === of && size(value) > 0);

/** Poison can only be tested for, never taken out: it is dealt with where it was found harmless, and not otherwise. */
export const isDealtWith = ({ hazard, found }: Pick<TreatedHazard, 'hazard' | 'found'>): boolean =>
  hazard === 'poison' ? found === 'harmless' : found !== 'present';
