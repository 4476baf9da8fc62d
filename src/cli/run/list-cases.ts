import { basename } from 'node:path';
import { loadText } from '../../casebook/load-text.ts';
import { inForce } from '../../rulebook/in-force.ts';
import { BUILD, type CacheKind, findInCache, keepInCache, sha256 } from '../cache.ts';
import type { Studio } from '../studio.ts';
import { type ListedCase, type Listing, listCase, onDay, type UnreadCase, unread } from './list-case.ts';

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
  const texts = await loadAll(paths);
  const fresh = texts.filter((each) => 'digest' in each && kept[each.digest] === undefined).length;
  if (fresh > MANY) tell(fresh);
  const now: Record<string, Listing> = {};
  const listed: (ListedCase | UnreadCase)[] = [];
  const keep = (listings: Kept): Promise<void> => keepInCache(LISTS, key, listings);
  let decided = 0;
  for (const each of texts) {
    const known = 'digest' in each ? kept[each.digest] : undefined;
    const listing = known ?? ('digest' in each ? await listCase(each.path, each.text, studio, day) : each);
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
}

async function loadAll(paths: readonly string[]): Promise<(Text | UnreadCase)[]> {
  const texts: (Text | UnreadCase)[] = [];
  for (let from = 0; from < paths.length; from += AT_ONCE)
    texts.push(...(await Promise.all(paths.slice(from, from + AT_ONCE).map(load))));
  return texts;
}

/** A case is what it says under the name it has: its name is part of its digest. */
async function load(path: string): Promise<Text | UnreadCase> {
  try {
    const text = await loadText(path);
    return { path, text, digest: sha256(`${basename(path)}\0${text}`).slice(0, 32) };
  } catch (error) {
    return unread(path, error);
  }
}
