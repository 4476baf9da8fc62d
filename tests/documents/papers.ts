import { readFileSync } from 'node:fs';
import type { Decision } from '../../src/decision/decide.ts';
import { question } from '../../src/decision/questions/ask.ts';
import {
  DocumentContext,
  type DocumentInput,
  type Photo,
  type StudioCard,
} from '../../src/documents/document-context.ts';
import { KINDS } from '../../src/documents/kinds/all.ts';
import type { Sheet } from '../../src/documents/model.ts';
import { textsOrThrow } from '../../src/documents/read-texts.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { context, decidedOn } from '../decision/shipped.ts';

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
const asked = new Map<string, Promise<Decision>>();

/** The shipped rules, opened once for a test file. */
export const shippedStudio = (): Promise<Studio> => {
  studio ??= openStudio({});
  return studio;
};

/** A shipped case as decided by the shipped rules, with what would change it where `questioned`. */
export function decisionOn(name: string, questioned = false): Promise<Decision> {
  const file = `${name}.yaml`;
  if (!questioned) return decidedOn(file);
  const made = asked.get(file) ?? askedOn(file);
  asked.set(file, made);
  return made;
}

const askedOn = async (file: string): Promise<Decision> => {
  const decision = await decidedOn(file);
  return { ...decision, answer: { ...decision.answer, ...(await question(decision, context)) } };
};

export async function papersOf(
  decision: Decision,
  card: Partial<StudioCard> = {},
  photos: readonly Photo[] = [],
): Promise<DocumentInput> {
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

export const writingOn = async (name: string, asked = false): Promise<DocumentContext> =>
  new DocumentContext(await papersOf(await decisionOn(name, asked)));

/** One case for each kind of document, among the shipped ones: its file below cases/. */
export const CASE_FOR: Readonly<Record<string, string>> = {
  decision: 'bindweed-ninepatch',
  decline: 'bunk-bed-scraps',
  refer: 'album-of-1874',
  'not-yet': 'cellar-baskets',
  estimate: 'weathercock-on-point',
  work: 'term-time-squares',
  report: 'demo/foundry-row-fourpatch',
  care: 'pinwheel-for-a-cot',
  survey: 'bindweed-ninepatch',
};

export function sheetOf(kind: string, doc: DocumentContext): Sheet {
  const found = KINDS.find(({ name }) => name === kind);
  if (found === undefined) throw new Error(`no kind ${kind}`);
  const unfit = found.unfit(doc);
  if (unfit !== undefined) throw new Error(unfit);
  return found.write(doc);
}

export const shippedSheet = async (kind: string): Promise<Sheet> =>
  sheetOf(kind, await writingOn(CASE_FOR[kind] ?? ''));
