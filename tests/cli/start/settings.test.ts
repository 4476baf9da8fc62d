import { describe, expect, test } from 'vitest';
import { readStudio, STUDIO_SCHEMA } from '../../../src/casebook/read-studio.ts';
import { settingsOf, studioYaml } from '../../../src/cli/commands/start-settings.ts';

const USUAL = {
  currency: '$',
  ratePerHour: 40,
  minimum: 100,
  rounding: 10,
  deposit: 0.5,
  units: 'inches',
} as const;

describe('the settings of a new studio', () => {
  test('every setting there is stands in the file, explained', () => {
    const names = settingsOf(USUAL).map(({ name }) => name);
    expect(names.toSorted()).toEqual(Object.keys(STUDIO_SCHEMA.shape).toSorted());
    for (const { about } of settingsOf(USUAL)) expect(about.join(' ').length).toBeGreaterThan(20);
  });

  test('it reads, as it stands and with every mark taken away', () => {
    const text = studioYaml(USUAL);
    expect(readStudio('studio.yaml', text)).toEqual({
      studio: { currency: '$', units: 'inches', washing: 'museum' },
      problems: [],
    });
    const open = text.replace(/^# ([a-z_]+: )/gm, (line, name: string) =>
      settingsOf(USUAL).some((setting) => `${setting.name}: ` === name) ? name : line,
    );
    // The two words the washing setting may take are explained in the same shape as settings.
    const settled = open.replace(/^(museum|studio): (a quilt|it may).*$/gm, '');
    const { studio, problems } = readStudio('studio.yaml', settled);
    expect(problems).toEqual([]);
    expect(studio).toMatchObject({ rate_per_hour: 40, deposit: 0.5, valid_days: 30 });
  });
});
