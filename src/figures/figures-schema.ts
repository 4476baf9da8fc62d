import { z } from 'zod';
import { EVIDENCE } from './model.ts';

const amount = z.union([z.number(), z.string().regex(/^\s*-?\d+(\.\d+)?\s*%\s*$/)]);
const about = {
  unit: z.string().optional(),
  per: z.string().optional(),
  spread: z.number().min(0).optional(),
  note: z.string().optional(),
  evidence: z.enum(EVIDENCE),
  source: z.string().min(1),
  since: z.string().regex(/^\d{4}-\d\d-\d\d$/),
  was: z.array(z.record(z.string(), z.unknown())).optional(),
};

const figure = z.union([
  z.strictObject({ value: amount, ...about }),
  z.strictObject({ low: amount, likely: amount, high: amount, ...about }),
]);

type Figures = { [name: string]: z.infer<typeof figure> | Figures };

/** figures.yaml as an editor should know it: groups of figures, nested as deep as need be. */
export const figuresSchema: z.ZodType<Figures> = z.lazy(() =>
  z.record(z.string(), z.union([figure, figuresSchema])),
);
