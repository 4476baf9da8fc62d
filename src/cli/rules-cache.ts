import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rename, stat, unlink, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findKnowledge, type KeptKnowledge, keepKnowledge } from '../rulebook/kept/knowledge.ts';
import type { Knowledge, TextFile } from '../rulebook/knowledge.ts';

declare const __MENDWISE_BUILD__: string | undefined;
/** Digest of the source this program was built from; nothing where it runs unbuilt, and then nothing is kept. */
const BUILD = typeof __MENDWISE_BUILD__ === 'string' ? __MENDWISE_BUILD__ : undefined;

/** Kept sets of rules in the cache folder; older ones are removed. */
const MOST = 8;
const SHIPPED_NAME = 'rules.json';

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** What the rules kept were made from: every name and text, and the program that read them. */
export const keyOf = (files: readonly TextFile[], names: readonly string[], build: string): string =>
  sha256(JSON.stringify([build, names, files.map(({ text }) => text)]));

/** Where this system wants caches. */
const cacheFolder = (): string => {
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
export const keptText = (key: string, kept: KeptKnowledge): string => {
  const body = JSON.stringify(kept);
  return `${key} ${sha256(body)}\n${body}`;
};

/** What a kept text holds, or nothing where it is not whole or not for this key. */
export const readKept = (text: string, key: string): KeptKnowledge | undefined => {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${key} ${sha256(body)}`) return undefined;
  // The digest says that this is what keptText wrote.
  return JSON.parse(body) as KeptKnowledge;
};

/**
 * Rules read before from the very same texts by the very same program, or read now by `read` and kept for the next
 * start. Shipped rules lie beside the program; a studio's own in the system's cache folder. Whatever goes wrong
 * with keeping is passed over: the rules are then read.
 */
export async function throughCache(
  files: readonly TextFile[],
  names: readonly string[],
  read: () => Promise<Knowledge>,
): Promise<Knowledge> {
  if (BUILD === undefined) return read();
  const key = keyOf(files, names, BUILD);
  const folder = cacheFolder();
  const own = join(folder, `rules-${key.slice(0, 32)}.json`);
  for (const path of [join(dirname(fileURLToPath(import.meta.url)), SHIPPED_NAME), own]) {
    const kept = await readFile(path, 'utf8').then(
      (text) => readKept(text, key),
      () => undefined,
    );
    if (kept !== undefined) return findKnowledge(kept, files);
  }
  const knowledge = await read();
  await keep(folder, own, keptText(key, keepKnowledge(knowledge, files))).catch(() => undefined);
  return knowledge;
}

/** Whole or not at all: two starts at once write the same bytes under names of their own, and the last rename holds. */
async function keep(folder: string, path: string, text: string): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const temp = `${path}.${process.pid}.tmp`;
  try {
    await writeFile(temp, text, { mode: 0o600 });
    await rename(temp, path);
  } catch (error) {
    await unlink(temp).catch(() => undefined);
    throw error;
  }
  await prune(folder);
}

async function prune(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.startsWith('rules-'));
  const aged = await Promise.all(
    names.map(async (name) => ({ name, at: (await stat(join(folder, name))).mtimeMs })),
  );
  const old = aged.sort((a, b) => b.at - a.at).slice(MOST);
  for (const { name } of old) await unlink(join(folder, name));
}
