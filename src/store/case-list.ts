import { basename } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import type { Treatment, Use } from '../casebook/scales.ts';
import { contextOf } from '../decision/context.ts';
import { decide } from '../decision/decide.ts';
import { evaluate } from '../decision/evaluate.ts';
import { differences } from '../decision/expectation.ts';
import type { Settled } from '../decision/outcome.ts';
import { provisionalOn } from '../decision/provisional.ts';
import { hazardStops, unansweredOn } from '../decision/safety.ts';
import { dueFollowup, type FollowedUp } from '../experience/due.ts';
import type { Figures } from '../figures/model.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Standing } from '../rulebook/model.ts';
import { BUILD, type CacheKind, findInCache, keepInCache, sha256 } from './cache.ts';
import { openText } from './case-store.ts';
import { loadText } from './load-text.ts';
import { hazardLooks, secondSurveyFiles } from './second-survey-files.ts';
import type { Studio } from './studio.ts';

/** Lists kept in the system's cache folder, one for each studio. */
const LISTS: CacheKind = { prefix: 'list-', most: 16 };

/** Files read at a time. */
const AT_ONCE = 32;

type Kept = Readonly<Record<string, Listing>>;

/**
 * Every case with where it stands on a day, in the order of `paths`. A case whose text, rules, practice and program
 * are what they were when it was last listed is not decided again. `tell` hears how many are to be decided, where
 * that will take a while.
 */
export async function listCases(
  paths: readonly string[],
  studio: Studio,
  day: string,
  tell: (count: number) => void,
): Promise<(ListedCase | UnreadCase)[]> {
  const key = keyOf(studio, day);
  const kept: Kept = (await findInCache<Kept>(LISTS, key)) ?? {};
  const texts = await loadAll(paths, await secondSurveyFiles(studio.casesFolder));
  const fresh = texts.filter((each) => 'digest' in each && kept[each.digest] === undefined).length;
  if (fresh > MANY) tell(fresh);
  const now: Record<string, Listing> = {};
  const listed: (ListedCase | UnreadCase)[] = [];
  const keep = (listings: Kept): Promise<void> => keepInCache(LISTS, key, listings);
  let decided = 0;
  for (const each of texts) {
    const known = 'digest' in each ? kept[each.digest] : undefined;
    const listing = known ?? ('digest' in each ? await listCase(each, studio, day) : each);
    if (isListing(listing) && 'digest' in each) now[each.digest] = listing;
    listed.push(isListing(listing) ? onDay(listing, day, studio.knowledge.figures) : listing);
    // Whoever breaks off a long list finds what it had come to.
    if (known !== undefined || !isListing(listing)) continue;
    decided += 1;
    if (decided % MANY === 0) await keep({ ...kept, ...now });
  }
  const same = fresh === 0 && Object.keys(now).length === Object.keys(kept).length;
  if (!same) await keep(now);
  return listed;
}

/** More than this take longer than anybody likes to wait without being told. */
const MANY = 200;

const isListing = (each: Listing | UnreadCase): each is Listing => 'line' in each;

/** What, beside its own text, a line of the list hangs on. */
const keyOf = ({ casesFolder, knowledge: { rulebook }, practice }: Studio, day: string): string =>
  sha256(
    JSON.stringify([
      BUILD,
      casesFolder,
      rulebook.digest,
      inForce(rulebook, day).rules.map(({ id }) => id),
      practice,
    ]),
  );

interface Text {
  readonly path: string;
  readonly text: string;
  readonly digest: string;
  /** Files in which others have surveyed the quilt. */
  readonly others: readonly string[];
}

async function loadAll(
  paths: readonly string[],
  surveys: ReadonlyMap<string, readonly string[]>,
): Promise<(Text | UnreadCase)[]> {
  const texts: (Text | UnreadCase)[] = [];
  for (let from = 0; from < paths.length; from += AT_ONCE)
    texts.push(
      ...(await Promise.all(
        paths.slice(from, from + AT_ONCE).map((path) => load(path, surveys.get(nameOf(path)) ?? [])),
      )),
    );
  return texts;
}

const nameOf = (path: string): string => basename(path).replace(/\.ya?ml$/i, '');

/** A case is what it and the surveys beside it say under the name it has: all of that is in its digest. */
async function load(path: string, others: readonly string[]): Promise<Text | UnreadCase> {
  try {
    const [text = '', ...surveys] = await Promise.all([path, ...others].map((each) => loadText(each)));
    const digest = sha256([basename(path), text, ...surveys].join('\0')).slice(0, 32);
    return { path, text, others, digest };
  } catch (error) {
    return unread(path, error);
  }
}

/** One line of the list: a case that reads, with where it stands. */
export interface ListedCase {
  readonly case: string;
  readonly title: string | null;
  readonly standing: Standing;
  readonly treatment: Treatment | null;
  readonly provisional: boolean;
  /** What stands in the way of touching it: hazards that stop it, and findings on safety that nobody has answered. */
  readonly safety: { readonly hazards: readonly string[]; readonly unanswered: readonly string[] };
  readonly intended_use: Use | null;
  /** The latest day anything in the case is dated, or nothing where it is undated. */
  readonly updated: string | null;
  /** Whether a decision or an approval is written down in it. */
  readonly decided: boolean;
  /** The follow-up it owes on that day; nothing where it owes none. */
  readonly followup_due: { readonly months: number; readonly on: string } | null;
  /** What differs from what the case expects; nothing where it expects nothing. */
  readonly differs: readonly string[] | null;
}

/** A case file that could not be read, with the first thing wrong in it. */
export interface UnreadCase {
  readonly case: string;
  readonly problem: Problem;
}

export const isUnread = (each: ListedCase | UnreadCase): each is UnreadCase => 'problem' in each;

/** What the list says of a case whatever the day, and as much of the case as tells what it owes on one. */
interface Listing {
  readonly line: Omit<ListedCase, 'followup_due'>;
  readonly followed: FollowedUp;
}

function onDay({ line, followed }: Listing, day: string, figures: Figures): ListedCase {
  const due = dueFollowup(followed, day, figures);
  const { differs, ...rest } = line;
  return { ...rest, followup_due: due === undefined ? null : { months: due.months, on: due.on }, differs };
}

/** Reads and decides one case; what is wrong with it becomes part of the list, so that the others still come. */
async function listCase(
  { path, text, others }: Text,
  studio: Studio,
  asOf: string,
): Promise<Listing | UnreadCase> {
  try {
    const { case: quiltCase } = openText(path, text, studio, await hazardLooks(others, studio));
    const { completed, followups } = quiltCase;
    return {
      line: await lineOf(quiltCase, studio, asOf),
      followed: {
        case: quiltCase.case,
        ...(completed === undefined ? {} : { completed }),
        ...(followups === undefined ? {} : { followups }),
      },
    };
  } catch (error) {
    return unread(path, error);
  }
}

/** A case that cannot be read, as a line of the list; any other fault is thrown on. */
function unread(path: string, error: unknown): UnreadCase {
  const problem =
    error instanceof ProblemError
      ? error.problems.find(({ severity }) => severity === 'error')
      : { code: 'internal' as const, severity: 'error' as const, what: String(error) };
  if (problem === undefined) throw error;
  return { case: nameOf(path), problem };
}

async function lineOf(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<Listing['line']> {
  const { standing, treatment, provisional, safety, differs } = await standingOf(quiltCase, studio, asOf);
  return {
    case: quiltCase.case,
    title: quiltCase.quilt.title ?? null,
    standing,
    treatment,
    provisional,
    safety,
    intended_use: quiltCase.client.intended_use ?? null,
    updated: updated(quiltCase),
    decided: quiltCase.approved !== undefined || (quiltCase.decisions ?? []).length > 0,
    differs,
  };
}

type Stands = Pick<ListedCase, 'standing' | 'treatment' | 'provisional' | 'safety' | 'differs'>;

/** What a case expects is held against the decision of record; where it expects nothing the fast path says the same. */
async function standingOf(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<Stands> {
  const context = contextOf(studio, asOf);
  if (quiltCase.expect !== undefined) {
    const { answer, ...settled } = await decide(quiltCase, context);
    const { standing, treatment, provisional } = answer;
    const differs = differences(quiltCase.expect, answer).map(({ what }) => what);
    return { standing, treatment, provisional, safety: inTheWay(settled, studio), differs };
  }
  const settled = evaluate(quiltCase, context);
  const { situation, ballot, outcome } = settled;
  const { standing, treatment } = outcome;
  const provisional = provisionalOn(situation, ballot, outcome);
  return { standing, treatment, provisional, safety: inTheWay(settled, studio), differs: null };
}

const inTheWay = (settled: Settled, { knowledge }: Studio): ListedCase['safety'] => ({
  hazards: [...new Set(hazardStops(settled).flatMap(({ effects }) => effects.hazard ?? []))],
  unanswered: unansweredOn(settled, knowledge.vocabulary.findings),
});

function updated({
  opened,
  survey,
  approved,
  resurveys,
  decisions,
  followups,
  log,
}: QuiltCase): string | null {
  const entries = [...(decisions ?? []), ...(followups ?? []), ...(log ?? [])].map(({ on }) => on);
  const days = [opened, survey.on, approved?.on, ...resurveys.map(({ on }) => on), ...entries];
  return (
    days
      .filter((day) => typeof day === 'string')
      .sort()
      .at(-1) ?? null
  );
}
