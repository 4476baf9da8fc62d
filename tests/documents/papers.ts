import { readFileSync } from 'node:fs';
import { contextOf } from '../../src/decision/context.ts';
import { type Decision, decide } from '../../src/decision/decide.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { KINDS } from '../../src/documents/kinds/all.ts';
import type { Sheet } from '../../src/documents/model.ts';
import { textsOrThrow } from '../../src/documents/read-texts.ts';
import { type Papers, type Photo, type StudioCard, Writing } from '../../src/documents/writing.ts';
import { openCase } from '../../src/store/case-store.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';

export const TEXTS_FILE = readFileSync(new URL('../../rules/texts.yaml', import.meta.url), 'utf8');
export const DAY = '2026-11-27';

const CARD: StudioCard = {
  name: 'Invented Studio',
  contact: '1 Example Lane, studio@example.org',
  logo: undefined,
  language: 'en-GB',
  units: 'inches',
  currency: '$',
  validDays: 30,
};

let studio: Promise<Studio> | undefined;
const decided = new Map<string, Promise<Decision>>();

/** The shipped rules, opened once for a test file. */
export const shippedStudio = (): Promise<Studio> => {
  studio ??= openStudio({});
  return studio;
};

/** A shipped case as decided by the shipped rules, with what would change it where `asked`. */
export function decisionOn(name: string, asked = false): Promise<Decision> {
  const key = `${name} ${asked}`;
  const known = decided.get(key);
  if (known !== undefined) return known;
  const made = (async () => {
    const context = contextOf(await shippedStudio(), DAY);
    const file = name.includes('/') ? name : `cases/${name}.yaml`;
    const opened = await openCase(file, await shippedStudio());
    const decision = await decide(opened.case, context);
    if (!asked) return decision;
    const questions = await question(decision, context);
    return { ...decision, answer: { ...decision.answer, ...questions } };
  })();
  decided.set(key, made);
  return made;
}

export async function papersOf(
  decision: Decision,
  card: Partial<StudioCard> = {},
  photos: readonly Photo[] = [],
): Promise<Papers> {
  const { knowledge } = await shippedStudio();
  return {
    decision,
    vocabulary: knowledge.vocabulary,
    figures: knowledge.figures,
    texts: textsOrThrow('rules/texts.yaml', TEXTS_FILE).texts,
    studio: { ...CARD, ...card },
    photos,
  };
}

export const writingOn = async (name: string, asked = false): Promise<Writing> =>
  new Writing(await papersOf(await decisionOn(name, asked)));

/** One case for each kind of document, among the shipped ones. */
export const CASE_FOR: Readonly<Record<string, string>> = {
  decision: 'bindweed-ninepatch',
  decline: 'bunk-bed-scraps',
  refer: 'album-of-1874',
  'not-yet': 'cases/cellar-baskets.yaml',
  estimate: 'weathercock-on-point',
  work: 'term-time-squares',
  report: 'cases/demo/foundry-row-fourpatch.yaml',
  care: 'pinwheel-for-a-cot',
  survey: 'bindweed-ninepatch',
};

export function sheetOf(kind: string, writing: Writing): Sheet {
  const found = KINDS.find(({ name }) => name === kind);
  if (found === undefined) throw new Error(`no kind ${kind}`);
  const unfit = found.unfit(writing);
  if (unfit !== undefined) throw new Error(unfit);
  return found.write(writing);
}

export const shippedSheet = async (kind: string): Promise<Sheet> =>
  sheetOf(kind, await writingOn(CASE_FOR[kind] ?? ''));
