import { join } from 'node:path';
import { counted } from '../../../documents/phrases.ts';
import { SCHEMA_FOLDER, writeSchemas } from '../../../store/schemas.ts';
import { openStudio, relativeName } from '../../../store/studio.ts';
import { type Action, studioOptions } from '../../command.ts';

export const action: Action = async (typed, terminal) => {
  const { rulesFolder, knowledge } = await openStudio(studioOptions(typed));
  const folder = join(rulesFolder, SCHEMA_FOLDER);
  const written = await writeSchemas(folder, knowledge);
  terminal.out(
    written === 0
      ? `The schemas in ${relativeName(folder)} fit the rules already.`
      : `Wrote ${counted(written, 'schema')} to ${relativeName(folder)}.`,
  );
  return 0;
};
