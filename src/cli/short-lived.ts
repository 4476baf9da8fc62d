import { setFlagsFromString } from 'node:v8';

/**
 * Node makes code that runs often faster, on another core. A process that ends within a tenth of a second pays for that
 * and hardly sees the gain, so it is told to wait some fifteen times as long before it begins; a large quilt still has
 * it. Said to the Node it was measured on alone: another may not know the word, and would print that it does not.
 */
export const optimizeLater = (): void => {
  if (process.versions.node.startsWith('20.')) setFlagsFromString('--interrupt-budget=1048576');
};
