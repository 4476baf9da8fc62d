import type { Survey } from '../casebook/model.ts';
import { GRADES, type Grade } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { memo } from '../quantities/memo.ts';
import { dyeFacts, fibreFacts } from './dye-facts.ts';
import type { Fact, Facts } from './fact.ts';
import { fragilityFacts } from './fragility-facts.ts';
import { joinFacts, plannedJoinFacts } from './join-facts.ts';
import type { LatestLook } from './latest-look.ts';
import { layerFacts } from './layer-facts.ts';
import { lossFacts, lossInOuterRowsOnly, stateFacts, unseenShare, worstFamilyLoss } from './loss-facts.ts';
import { clothIn, foundCloth, isUncounted, plannedCloth, remainingCloth, type Treated } from './old-cloth.ts';
import { seenGrade } from './survey-quilt.ts';
import type { SurveyedQuilt } from './surveyed.ts';
import { causeFacts } from './told-causes.ts';
import { type FindingDef, factOfOption, pathOf, type Vocabulary } from './vocabulary.ts';

/**
 * Everything known of the quilt as it was found: `finding.<id>` for every finding of the vocabulary that is of the
 * quilt; undefined is unknown, spans are bounds. `quilt` is `surveyQuilt(look, figures)`.
 */
export const foundFacts = (
  look: LatestLook,
  quilt: SurveyedQuilt,
  vocabulary: Vocabulary,
  figures: Figures,
): Facts => {
  const stated = statedFacts(look, vocabulary);
  const derived = derivedFacts({ quilt, figures });
  const fibres: Readonly<Record<string, Fact>> = fibreFacts(quilt, look.case.quilt.batting);
  const { made } = look.case.quilt;
  const cameIn = look.case.opened;
  const year = cameIn === undefined ? undefined : Number(cameIn.slice(0, 4));
  const own: Readonly<Record<string, Fact>> = {
    // Where there is no silk there is none to shatter.
    shattering_silk: stated.shattering_silk ?? (fibres.silk_present === false ? 0 : undefined),
    opened: look.opened,
    hazard_withdrawn: look.withdrawn.length > 0,
    poison_found: look.confirmed.includes('poison'),
    loss_in_outer_rows_only: stated.loss_in_outer_rows_only ?? lossInOuterRowsOnly(quilt),
    old_joining_intact: oldJoiningIntact(stated, figures.number('findings.intact_missing')),
    mapped: look.case.survey.units !== undefined,
    looked_over: isLookedOver(look.case.survey, quilt),
    age_years: year === undefined || made?.about === undefined ? undefined : Math.max(0, year - made.about),
    area: quilt.size.width * quilt.size.height,
  };
  const layers = layerFacts({ ...stated, ...derived }, figures);
  const facts: Record<string, Fact> = {};
  // Thousands of readings are made where an answer is questioned: looked up, not merged.
  for (const [id, key] of ofTheQuilt(vocabulary)) {
    const from = [own, fibres, derived, layers].find((some) => id in some) ?? stated;
    facts[key] = from[id];
  }
  return facts;
};

/** Findings of the quilt: their names in the vocabulary and as facts. */
const ofTheQuilt = ({ findings }: Vocabulary) =>
  [...findings.values()].flatMap(({ id, per }) => (per === 'quilt' ? [[id, `finding.${id}`] as const] : []));

interface Derived {
  readonly quilt: SurveyedQuilt;
  readonly figures: Figures;
}

/** What follows from the units, families and joins. */
// Without it the questions of three cases take 22 % more processor time.
const derivedFacts = memo(32, ({ quilt, figures }: Derived): Readonly<Record<string, Fact>> => {
  const untouched: readonly Treated[] = clothIn(quilt.groups.map((group) => ({ group, action: 'keep' })));
  const cloth = foundCloth(quilt);
  return {
    ...lossFacts(quilt, untouched),
    worst_family_loss: worstFamilyLoss(quilt),
    ...joinFacts(quilt.joins, figures.number('findings.interval_confidence')),
    ...fragilityFacts(quilt, cloth, figures.number('findings.governing_area')),
    ...dyeFacts(quilt, cloth, cloth),
    ...stateFacts(quilt, untouched),
    ...causeFacts(quilt),
    unseen_share: unseenShare(quilt),
  };
});

/** A first message tells, and shows nothing: nobody has counted or graded anything of it. */
const isLookedOver = ({ seen, joins, families = {} }: Survey, quilt: SurveyedQuilt): boolean =>
  seen === 'in hand' ||
  !isUncounted(quilt) ||
  joins?.inspected !== undefined ||
  Object.values(families).some(({ fragility }) => fragility !== undefined);

/** Old fastenings are intact where few are missing; no joining is none to rely on. */
const oldJoiningIntact = (stated: Readonly<Record<string, Fact>>, mark: number): Fact => {
  const { joining_kind: kind, joining_missing: missing } = stated;
  if (kind === 'none') return false;
  if (typeof missing === 'number' && missing > mark) return false;
  return kind === undefined || typeof missing !== 'number' ? undefined : true;
};

/**
 * The findings as they would be once the actions are carried out: `planned.<id>` for every finding the vocabulary
 * marks as planned. `treated` names every group of the quilt once, whole or in parts.
 */
export const plannedFacts = (
  quilt: SurveyedQuilt,
  treated: readonly Treated[],
  vocabulary: Vocabulary,
  figures: Figures,
): Facts => {
  const actions = clothIn(treated);
  const mark = figures.number('findings.governing_area');
  const carrying = plannedCloth(quilt, actions);
  const facts: Readonly<Record<string, Fact>> = {
    ...fragilityFacts(quilt, carrying, mark),
    ...dyeFacts(quilt, carrying, remainingCloth(quilt, actions)),
    ...lossFacts(quilt, actions),
    ...stateFacts(quilt, actions),
    ...plannedJoinFacts(quilt, actions),
  };
  return Object.fromEntries(asPlanned(vocabulary).map(([id, key]) => [key, facts[id]]));
};

/** Findings that exist as planned: their names in the vocabulary and as facts. */
const asPlanned = ({ findings }: Vocabulary) =>
  [...findings.values()].flatMap(({ id, planned }) => (planned ? [[id, `planned.${id}`] as const] : []));

function at(value: unknown, path: readonly string[]): unknown {
  let here = value;
  for (const step of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined;
    here = Reflect.get(here, step);
  }
  return here;
}

const isGrade = (value: unknown): value is Grade => GRADES.some((grade) => grade === value);

/** What the case file states of one finding, as facts hold it. "unknown" is no statement. */
const statedFact = (look: LatestLook, def: FindingDef): Fact => {
  const path = pathOf(def);
  if (path === undefined) return undefined;
  const value = at(look.case, path);
  if (def.kind === 'grade') {
    if (!isGrade(value)) return undefined;
    const part = path.at(-2);
    const seen = part === 'backing' || part === 'binding' ? look.gradeSeen[part] : look.case.survey.seen;
    return seenGrade(value, seen);
  }
  if (value === 'unknown') return undefined;
  if (def.kind === 'choice') return typeof value === 'string' ? factOfOption(def, value) : undefined;
  return typeof value === 'number' || typeof value === 'boolean' ? value : undefined;
};

const askedOfTheQuilt = ({ findings }: Vocabulary): FindingDef[] =>
  [...findings.values()].filter((def) => def.per === 'quilt' && def.at !== 'derived');

/**
 * Findings stated in the case file, by id, with what follows from others where a finding falls away: a filling that
 * is not there has not moved.
 */
const statedFacts = (look: LatestLook, vocabulary: Vocabulary): Readonly<Record<string, Fact>> => {
  const asked = askedOfTheQuilt(vocabulary);
  const stated: Record<string, Fact> = {};
  for (const def of asked) stated[def.id] = statedFact(look, def);
  const needless = asked.filter((def) => def.needless.length > 0 && stated[def.id] === undefined);
  const implied = needless.map((def): [string, Fact] => {
    const reason = def.needless.find(({ finding, is }) => {
      const other = vocabulary.findings.get(finding);
      const wanted = other !== undefined && typeof is === 'string' ? factOfOption(other, is) : is;
      return stated[finding] !== undefined && stated[finding] === wanted;
    });
    return [def.id, reason?.gives];
  });
  // What follows is not followed further.
  for (const [id, fact] of implied) stated[id] = fact;
  return stated;
};
