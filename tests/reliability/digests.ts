import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, readlinkSync } from 'node:fs';
import { join } from 'node:path';

/** Everything below a folder, by path: files by the digest of their bytes, links by where they lead, folders by name. */
export function digestsOf(folder: string, at = ''): Readonly<Record<string, string>> {
  return Object.assign(
    {},
    ...readdirSync(join(folder, at), { withFileTypes: true }).map((entry) => {
      const path = join(at, entry.name);
      const full = join(folder, path);
      if (entry.isSymbolicLink()) return { [path]: `to ${readlinkSync(full)}` };
      if (entry.isDirectory()) return { [path]: 'folder', ...digestsOf(folder, path) };
      return { [path]: createHash('sha256').update(readFileSync(full)).digest('hex') };
    }),
  );
}
