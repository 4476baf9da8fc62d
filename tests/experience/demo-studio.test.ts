import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { secondSurveyOf } from '../../src/casebook/second-survey.ts';
import { repairOutcome } from '../../src/experience/due.ts';
import { demoCase, demoSurvey } from './court.ts';

const files = readdirSync(new URL('../../cases/demo/', import.meta.url)).sort();
const surveys = files.flatMap((file) => secondSurveyOf(file) ?? []);
const cases = files
  .filter((file) => secondSurveyOf(file) === undefined)
  .map((file) => file.replace('.yaml', ''));

describe('the demo studio', () => {
  it('reads without an error, every case and every second survey', () => {
    for (const name of cases) expect(demoCase(name).case).toBe(name);
    for (const { caseName, helper } of surveys) expect(demoSurvey(caseName, helper).by).toBe(helper);
  });

  it('has enough of everything to be shown: helpers, a reference set, outcomes both ways, hours, opened quilts', () => {
    const all = cases.map(demoCase);
    const outcomes = all.flatMap((one) => repairOutcome(one) ?? []);
    expect(new Set(surveys.map(({ helper }) => helper)).size).toBeGreaterThanOrEqual(3);
    expect(all.filter(({ reference }) => reference === true).length).toBeGreaterThanOrEqual(2);
    expect(outcomes.filter(({ dueAt }) => dueAt !== undefined).length).toBeGreaterThanOrEqual(3);
    expect(outcomes.filter(({ dueAt }) => dueAt === undefined).length).toBeGreaterThanOrEqual(5);
    expect(all.filter(({ log = [] }) => log.length > 0).length).toBeGreaterThanOrEqual(5);
    expect(
      all.filter(({ resurveys }) => resurveys.some(({ opened }) => opened === true)).length,
    ).toBeGreaterThanOrEqual(5);
  });
});
