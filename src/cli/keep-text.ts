import { mkdir, readdir, rename, stat, unlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { cacheFolder, type Kind } from './kept-files.ts';

/** Keeps a text of a kind for the next start, at its `keptPath`. Whatever goes wrong with keeping is passed over. */
export const keepText = (kind: Kind, path: string, text: string): Promise<void> =>
  keep(kind, path, text).catch(() => undefined);

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
