import { readFileSync } from 'node:fs';
import { readVocabulary } from '../../src/findings/read-vocabulary.ts';

const FILE = new URL('../../rules/findings.yaml', import.meta.url);

export const vocabularyText = readFileSync(FILE, 'utf8');
export const vocabulary = readVocabulary('rules/findings.yaml', vocabularyText);
