import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { lstat, mkdir, open, readdir, rename, unlink } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';

declare const __MENDWISE_BUILD__: string | undefined;
/** Digest of the source this program was built from; undefined where it runs unbuilt, and then nothing is cached. */
export const BUILD = typeof __MENDWISE_BUILD__ === 'string' ? __MENDWISE_BUILD__ : undefined;

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** What is cached of one kind: how its file names begin, and how many there are at most. */
export interface CacheKind {
  readonly prefix: string;
  readonly most: number;
}

/** Where this system wants caches. */
function cacheFolder(): string {
  const { env, platform } = process;
  if (platform === 'win32' && env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'mendwise');
  if (platform === 'darwin') return join(homedir(), 'Library', 'Caches', 'mendwise');
  return join(env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'mendwise');
}

/** Key and digest stand on the first line, so that nothing cut short, altered or meant for another key is used. */
export const serialize = (key: string, value: unknown): string => {
  const body = JSON.stringify(value);
  return `${key} ${sha256(`${key}\n${body}`)}\n${body}`;
};

/** The value in a cached text; undefined where it is not whole or not for this key. */
export function deserialize<T>(text: string, key: string): T | undefined {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${key} ${sha256(`${key}\n${body}`)}`) return undefined;
  // The digest says that this is what `serialize` wrote.
  return JSON.parse(body) as T;
}

const fileOf = ({ prefix }: CacheKind, key: string): string => `${prefix}${sha256(key).slice(0, 32)}.json`;

/** What is cached under a key. On any doubt about folder or file, nothing. */
export async function findInCache<T>(kind: CacheKind, key: string): Promise<T | undefined> {
  try {
    const folder = cacheFolder();
    if (BUILD === undefined || !(await isOurs(folder))) return undefined;
    const file = await open(join(folder, fileOf(kind, key)), constants.O_RDONLY | NO_LINK);
    try {
      return (await file.stat()).isFile() ? deserialize<T>(await file.readFile('utf8'), key) : undefined;
    } finally {
      await file.close();
    }
  } catch {
    return undefined;
  }
}

/** Caches a value for a later start. Whatever goes wrong with that is passed over: nothing is lost by it. */
export async function keepInCache(kind: CacheKind, key: string, value: unknown): Promise<void> {
  try {
    const folder = cacheFolder();
    await mkdir(folder, { recursive: true, mode: 0o700 });
    if (BUILD === undefined || !(await isOurs(folder))) return;
    const name = fileOf(kind, key);
    // Whole or not at all: two starts at once write under names of their own, and the last rename holds.
    const temp = join(folder, `${name}.${process.pid}.tmp`);
    const file = await open(temp, constants.O_WRONLY | constants.O_CREAT | constants.O_EXCL | NO_LINK, 0o600);
    try {
      await file.writeFile(serialize(key, value));
    } finally {
      await file.close();
    }
    await rename(temp, join(folder, name));
    await prune(folder, kind);
  } catch {
    // A start without a cache takes a little longer.
  }
}

/** Not on Windows, where a link of this kind cannot be opened by mistake without rights of its own. */
const NO_LINK = constants.O_NOFOLLOW ?? 0;

/** A real folder of this account that nobody else can write to. */
async function isOurs(folder: string): Promise<boolean> {
  const found = await lstat(folder);
  if (!found.isDirectory()) return false;
  return process.getuid === undefined || (found.uid === process.getuid() && (found.mode & 0o022) === 0);
}

/** Only ordinary files with names of ours are deleted, the oldest first. */
async function prune(folder: string, { prefix, most }: CacheKind): Promise<void> {
  const named = new RegExp(`^${prefix}[0-9a-f]{32}\\.json$`);
  const names = (await readdir(folder)).filter((name) => named.test(name));
  const aged = await Promise.all(
    names.map(async (name) => ({ name, found: await lstat(join(folder, name)) })),
  );
  const old = aged.filter(({ found }) => found.isFile()).sort((a, b) => b.found.mtimeMs - a.found.mtimeMs);
  for (const { name } of old.slice(most)) await unlink(join(folder, name));
}
