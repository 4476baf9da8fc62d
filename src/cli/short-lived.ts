import { setFlagsFromString } from 'node:v8';

/**
 * Node makes code that runs often faster, on another core. A process that ends within a tenth of a second pays for that
 * and hardly sees the gain, so it is told to wait eight times as long before it begins; a large quilt still has it.
 */
export const optimizeLater = (): void => setFlagsFromString('--interrupt-budget=1048576');
