import { existsSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { loadText } from '../../casebook/load-text.ts';
import { saveText } from '../../casebook/save-text.ts';
import { type Action, studioOptions } from '../command.ts';
import { counted } from '../print/labels.ts';
import { editorSchemas, SCHEMA_FOLDER } from '../schemas.ts';
import { openStudio, relativeName } from '../studio.ts';

/** Writes the schemas beside the rules; those that are right already are left alone. */
export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const folder = join(studio.rulesFolder, SCHEMA_FOLDER);
  await mkdir(folder, { recursive: true });
  let written = 0;
  for (const [name, text] of editorSchemas(studio.knowledge)) {
    const path = join(folder, name);
    const old = existsSync(path) ? await loadText(path) : undefined;
    if (old === text) continue;
    // Made from the rules and made again at any time: an old one is not worth keeping.
    await rm(path, { force: true });
    await saveText(path, text);
    written += 1;
  }
  terminal.out(
    written === 0
      ? `The schemas in ${relativeName(folder)} fit the rules already.`
      : `Wrote ${counted(written, 'schema')} to ${relativeName(folder)}.`,
  );
  return 0;
};
