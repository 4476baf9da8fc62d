import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rename, stat, unlink, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';

declare const __MENDWISE_BUILD__: string | undefined;
/** Digest of the source this program was built from; nothing where it runs unbuilt, and then nothing is kept. */
export const BUILD = typeof __MENDWISE_BUILD__ === 'string' ? __MENDWISE_BUILD__ : undefined;

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

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

/** The text of a kept file: key and digest on the first line, so that nothing cut short or meant for others is used. */
export const keptText = (key: string, kept: unknown): string => {
  const body = JSON.stringify(kept);
  return `${key} ${sha256(body)}\n${body}`;
};

/** What a kept text holds, or nothing where it is not whole or not for this key. */
export const readKept = <T>(text: string, key: string): T | undefined => {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${key} ${sha256(body)}`) return undefined;
  // The digest says that this is what keptText wrote.
  return JSON.parse(body) as T;
};

/** What is kept under a key at a path; nothing where that is not there, not whole or not for this key. */
export const findKept = <T>(path: string, key: string): Promise<T | undefined> =>
  readFile(path, 'utf8').then(
    (text) => readKept<T>(text, key),
    () => undefined,
  );

/** A kind of kept files: how their names begin, and how many there are at most. */
export interface Kind {
  readonly prefix: string;
  readonly most: number;
}

const named = (kind: Kind, name: string): string => join(cacheFolder(), `${kind.prefix}${name}.json`);

export const findInCache = <T>(kind: Kind, name: string, key: string): Promise<T | undefined> =>
  findKept<T>(named(kind, name), key);

/** Keeps a value for the next start. Whatever goes wrong with keeping is passed over. */
export const keepInCache = (kind: Kind, name: string, key: string, value: unknown): Promise<void> =>
  keep(kind, named(kind, name), keptText(key, value)).catch(() => undefined);

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
