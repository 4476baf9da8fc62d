import { mkdir, readdir, readFile, rename, stat, unlink, writeFile } from 'node:fs/promises';
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

/** What a file of JSON holds; nothing where it is not there, was cut short or is not what was wanted. */
export const findJson = async <T>(
  path: string,
  isWanted: (value: unknown) => value is T,
): Promise<T | undefined> => {
  try {
    const value: unknown = JSON.parse(await readFile(path, 'utf8'));
    return isWanted(value) ? value : undefined;
  } catch {
    return undefined;
  }
};

/** Keeps a text for the next start. Whatever goes wrong with keeping is passed over. */
export const keepText = (kind: Kind, name: string, text: string): Promise<void> =>
  keep(kind, keptPath(kind, name), text).catch(() => undefined);

/** Whole or not at all: two starts at once write under names of their own, and the last rename holds. */
async function keep(kind: Kind, path: string, text: string): Promise<void> {
  await mkdir(cacheFolder(), { recursive: true, mode: 0o700 });
  const temp = `${path}.${process.pid}.tmp`;
  try {
    await writeFile(temp, text, { mode: 0o600 });
    await rename(temp, path);
  } catch (error) {
    await unlink(temp).catch(() => undefined);
    throw error;
  }
  await prune(kind);
}

async function prune({ prefix, most }: Kind): Promise<void> {
  const folder = cacheFolder();
  const names = (await readdir(folder)).filter((name) => name.startsWith(prefix));
  const aged = await Promise.all(
    names.map(async (name) => ({ name, at: (await stat(join(folder, name))).mtimeMs })),
  );
  const old = aged.sort((a, b) => b.at - a.at).slice(most);
  for (const { name } of old) await unlink(join(folder, name));
}
