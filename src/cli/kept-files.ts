import { homedir } from 'node:os';
import { join } from 'node:path';

declare const __MENDWISE_BUILD__: string | undefined;
/** Digest of the source this program was built from; nothing where it runs unbuilt, and then nothing is kept. */
export const BUILD = typeof __MENDWISE_BUILD__ === 'string' ? __MENDWISE_BUILD__ : undefined;

/** Where this system wants caches. */
export const cacheFolder = (): string => {
  const { env, platform } = process;
  const usual =
    platform === 'win32'
      ? env.LOCALAPPDATA
      : platform === 'darwin'
        ? join(homedir(), 'Library', 'Caches')
        : env.XDG_CACHE_HOME;
  return join(usual || join(homedir(), '.cache'), 'mendwise');
};

/** A kind of kept files: how their names begin, and how many there are at most. */
export interface Kind {
  readonly prefix: string;
  readonly most: number;
}

/** Where something of a kind is kept under a name. */
export const keptPath = ({ prefix }: Kind, name: string): string =>
  join(cacheFolder(), `${prefix}${name}.json`);
