import { readFileSync } from 'node:fs';
import type { Figures } from '../../../src/figures/model.ts';
import { readFigures } from '../../../src/figures/read-figures.ts';
import { readYaml } from '../../../src/source/read-yaml.ts';

/** The figures as shipped. */
export function shippedFigures(): Figures {
  const file = new URL('../../../rules/figures.yaml', import.meta.url);
  const reading = readYaml('figures.yaml', readFileSync(file, 'utf8'));
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  const { figures, problems } = readFigures(reading.source);
  if (figures === undefined) throw new Error(JSON.stringify(problems));
  return figures;
}
