import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import { readShare } from '../quantities/measure.ts';
import { readYaml } from '../source/read-yaml.ts';
import { zodProblems } from '../source/zod-messages.ts';

const share = z
  .union([z.string(), z.number()])
  .transform((raw) => readShare(raw))
  .pipe(z.number({ error: 'a share such as 50 %' }).min(0).max(1));

/** What a studio says of itself in studio.yaml. Everything may be left out. */
export const STUDIO_SCHEMA = z.strictObject({
  studio: z.string().optional(),
  contact: z.string().optional(),
  logo: z.string().optional(),
  currency: z.string().min(1).max(8).optional(),
  units: z.enum(['inches', 'metric']).optional(),
  language: z.string().min(2).max(20).optional(),
  rate_per_hour: z.number().positive().optional(),
  minimum: z.number().min(0).optional(),
  rounding: z.number().positive().optional(),
  deposit: share.optional(),
  valid_days: z.int().positive().optional(),
  washing: z.enum(['museum', 'studio']).optional(),
});

export type StudioFile = z.infer<typeof STUDIO_SCHEMA>;

/** Reads studio.yaml. Pure; all problems at once. */
export function readStudio(file: string, text: string): { studio?: StudioFile; problems: Problem[] } {
  const read = readYaml(file, text);
  if ('problems' in read) return { problems: [...read.problems] };
  const parsed = STUDIO_SCHEMA.safeParse(read.source.value);
  if (!parsed.success) return { problems: zodProblems(parsed.error, read.source, { schema: STUDIO_SCHEMA }) };
  return { studio: parsed.data, problems: [] };
}
