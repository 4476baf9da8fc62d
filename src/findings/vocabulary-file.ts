import { z } from 'zod';
import { EVIDENCE } from '../figures/model.ts';
import { KINDS, KNOWERS } from './vocabulary.ts';

const words = z.string().min(1);

/** `yes` and `no` stay words in YAML 1.2 and are booleans in older files; both are meant. */
const yesNo = z
  .union([z.boolean(), z.enum(['yes', 'no'])])
  .transform((said) => said === true || said === 'yes');

/** A label alone, or a label with observable signs by way of looking. */
const option = z.union([words, z.object({ label: words }).catchall(words)]);

const chance = z.number().min(0).max(1);

const finding = z.strictObject({
  group: words,
  label: words,
  question: words.optional(),
  kind: z.enum(KINDS),
  per: z.enum(['quilt', 'plan']).optional(),
  ordered: yesNo.optional(),
  options: z.record(words, option).optional(),
  range: z.strictObject({ min: z.number(), max: z.number() }).optional(),
  unit: words.optional(),
  at: words.regex(/^(derived|(client|quilt|survey)(\.(\*|[a-z_]+))+)$/),
  planned: yesNo.optional(),
  how: words,
  who: z.enum(KNOWERS).optional(),
  cost: z.int().min(1).max(5).optional(),
  /** Chance of yes; chances by choice; or values thought equally likely. */
  likely: z.union([chance, z.array(z.number()).min(1), z.record(words, chance)]).optional(),
  'needless when': z
    .array(
      z.strictObject({
        finding: words,
        is: z.union([words, z.boolean()]),
        gives: z.union([z.number(), words, z.boolean()]).optional(),
      }),
    )
    .min(1)
    .optional(),
  evidence: z.enum(EVIDENCE),
  source: words,
});

const findings = z.record(z.string().regex(/^[a-z][a-z0-9_]*$/), finding);

/** rules/findings.yaml as it is written. */
export const vocabularyFile = z.strictObject({
  groups: z.record(words, words),
  protocol: words,
  stop_rule: words,
  grades: z.record(words, z.object({ label: words }).catchall(words)),
  findings,
  family: findings,
  unit: findings,
});

export type VocabularyFile = z.infer<typeof vocabularyFile>;
export type FindingEntry = z.infer<typeof finding>;
