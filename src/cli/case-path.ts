import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Studio } from './studio.ts';

/** A case is named by its file, or by its name in the studio's cases folder. */
export function casePath(name: string, studio: Pick<Studio, 'casesFolder'>): string {
  const asGiven = resolve(name);
  if (existsSync(asGiven) || /[/\\]|\.ya?ml$/.test(name)) return asGiven;
  return join(studio.casesFolder, `${name}.yaml`);
}
