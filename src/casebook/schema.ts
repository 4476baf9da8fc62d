import { z } from 'zod';
import { say } from '../source/said.ts';
import { isCaseName } from './case-name.ts';
import { decisionShape } from './decision-shape.ts';
import { choice, date, number, text, yesNo } from './fields.ts';
import type { FindingReader } from './finding-reader.ts';
import { completedShape, followupShape, logShape, treatedShape } from './followup-shape.ts';
import { group } from './group.ts';
import type { QuiltCase } from './model.ts';
import { quiltShape } from './quilt-shape.ts';
import { ACTIONS, TREATMENTS, USES } from './scales.ts';
import { resurveyShape, surveyShape } from './survey-shape.ts';

const money = () => number({ min: 0, max: 10_000_000, said: '0 and 10 million' });
const years = () => number({ min: 0, max: 400 });
const names = () => z.array(text());

export const formatLine = z.unknown().transform((raw, context): 1 => {
  if (raw === 1) return 1;
  const cure = 'Write mendwise: 1 as the first line.';
  if (raw === undefined)
    return say(context, { code: 'missing-key', what: 'the line mendwise: 1 is missing', cure });
  return say(context, { code: 'not-an-option', what: (_, value) => `there is no format ${value}`, cure });
});

const caseName = text().superRefine((name, context) => {
  if (isCaseName(name)) return;
  say(context, { code: 'bad-name', what: `"${name}" cannot be the name of a case` });
});

const client = group({
  ref: text().exactOptional(),
  wish: choice(['repair', 'restore', 'conserve']).exactOptional(),
  intended_use: choice(USES).exactOptional(),
  hung: yesNo().exactOptional(),
  budget: money().exactOptional(),
  owners_agree: yesNo().exactOptional(),
  wanted_years: years().exactOptional(),
});

const spell = group({
  use: choice(USES, false),
  years: years(),
  washing: choice(['none', 'hand', 'machine']).exactOptional(),
});

const approved = group({
  on: date().exactOptional(),
  hours: number({ min: 0, max: 10_000 }).exactOptional(),
  price: money().exactOptional(),
});

const photo = group({ file: text(), of: text().exactOptional(), when: text().exactOptional() });

// Not a `group`: an expected treatment of nothing is something to expect, not a blank.
const expected = z.strictObject({
  standing: choice(['go_ahead', 'not_yet', 'refer', 'decline'], false).exactOptional(),
  treatment: choice(TREATMENTS, false).nullable().exactOptional(),
  because: names().exactOptional(),
  not_because: names().exactOptional(),
  provisional: yesNo().exactOptional(),
  refused_uses: z.array(choice(USES, false)).exactOptional(),
  actions: z.array(choice(ACTIONS, false)).exactOptional(),
});

/** The case-file contract. Gives a case as the model has it: inches, pounds, fractions, nothing blank. */
export const caseSchema = (readFinding: FindingReader) =>
  group({
    mendwise: formatLine,
    case: caseName,
    opened: date().exactOptional(),
    reference: yesNo().exactOptional(),
    client: client.exactOptional(),
    quilt: quiltShape,
    history: z.array(spell).exactOptional(),
    survey: surveyShape(readFinding),
    approved: approved.exactOptional(),
    resurveys: z.array(resurveyShape(readFinding)).exactOptional(),
    treated: z.array(treatedShape).exactOptional(),
    photos: z.array(photo).exactOptional(),
    expect: expected.exactOptional(),
    decisions: z.array(decisionShape).exactOptional(),
    completed: completedShape.exactOptional(),
    followups: z.array(followupShape).exactOptional(),
    log: z.array(logShape).exactOptional(),
  }).transform(
    (read): QuiltCase => ({
      ...read,
      client: read.client ?? {},
      resurveys: read.resurveys ?? [],
      photos: read.photos ?? [],
    }),
  );
