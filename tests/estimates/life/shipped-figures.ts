import { readFileSync } from 'node:fs';
import { readFigures } from '../../../src/rulebook/figures.ts';
import type { Figures } from '../../../src/rulebook/figures-model.ts';
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
