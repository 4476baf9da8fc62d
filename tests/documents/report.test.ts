import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import type { Treatment } from '../../src/casebook/scales.ts';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { completionReport } from '../../src/documents/kinds/report.ts';
import { openCase } from '../../src/store/case-store.ts';
import { papersOf, sheetOf, shippedStudio } from './papers.ts';

const readCase = async (file: string): Promise<QuiltCase> =>
  (await openCase(file, await shippedStudio())).case;

const writingAt = async (quiltCase: QuiltCase, day: string): Promise<DocumentContext> => {
  const context = contextOf(await shippedStudio(), day);
  return new DocumentContext(await papersOf(await decide(quiltCase, context)));
};

const reportOn = async (quiltCase: QuiltCase, day: string): Promise<string> =>
  FORMATS.text(completionReport.write(await writingAt(quiltCase, day))).replace(/\s+/g, ' ');

const SHIRTS = 'cases/demo/foundry-row-fourpatch.yaml';
const SQUARES = 'cases/term-time-squares.yaml';

// What a report on finished work holds: common practice, no source.
describe('the report on finished work', () => {
  it('tells what was done, though something else was advised, and how it can be undone', async () => {
    const said = await reportOn(await readCase(SHIRTS), '2026-11-25');
    expect(said).toContain('We were to quilt it in lines. The work was finished on 19 January 2024.');
    expect(said).toContain('Lines of stitching by machine hold the layers, 8 in apart at most.');
    expect(said).toContain('What was done, block by block');
    expect(said).toContain('▲ Cannot be undone: The new holes in old cloth stay.');
  });

  it('lays hours worked beside those expected, and says where some were not written down', async () => {
    const quiltCase = await readCase(SHIRTS);
    const sum = (quiltCase.log ?? []).reduce((all, { hours }) => all + hours, 0);
    const said = await reportOn(quiltCase, '2026-11-25');
    expect(said).toContain('Supports: Expected 3 to 6.75; Worked 3.75');
    expect(said).toContain('Lines by machine: Expected 4 to 8.25; Worked not written down');
    expect(said).toContain(`Worked ${sum} as far as written down`);
    const { log: _, ...unlogged } = quiltCase;
    expect(await reportOn(unlogged, '2026-11-25')).not.toContain('Hours, step by step');
  });

  it('lays holes counted beside those expected, where somebody counted', async () => {
    const quiltCase = await readCase(SHIRTS);
    const count = quiltCase.completed?.holes?.toLocaleString('en-US');
    expect(count).toBeDefined();
    expect(await reportOn(quiltCase, '2026-11-25')).toContain(`Counted while we sewed, there are ${count}.`);
    const uncounted = { ...quiltCase, completed: { on: '2024-01-19' } };
    expect(await reportOn(uncounted, '2026-11-25')).not.toContain('Counted while we sewed');
  });

  it('gives old cloth back that was taken out, but not what was missing before', async () => {
    const quiltCase = { ...(await readCase(SQUARES)), completed: { on: '2026-11-20' } };
    const doc = await writingAt(quiltCase, '2026-11-25');
    const replaced = doc.finished?.option.plan.actions.filter(({ action }) => action === 'replace') ?? [];
    const left = replaced.filter(({ group }) => group.state !== 'missing');
    const count = left.reduce((sum, { group }) => sum + group.count, 0);
    expect(count).toBeGreaterThan(0);
    const said = await reportOn(quiltCase, '2026-11-25');
    expect(said).toContain(`Old cloth of ${count} blocks was taken out. It is yours.`);
    expect(await reportOn(await readCase(SHIRTS), '2026-11-25')).toContain('No old cloth was taken out.');
  });

  it('names the days of the follow-ups that are still to come', async () => {
    const quiltCase = await readCase(SHIRTS);
    expect(await reportOn(quiltCase, '2024-02-01')).toContain(
      'on 19 July 2024, 19 January 2025 and 19 January 2026.',
    );
    const later = await reportOn(quiltCase, '2025-06-01');
    expect(later).toContain('on 19 January 2026.');
    expect(later).not.toContain('19 July 2024');
    expect(await reportOn(quiltCase, '2026-11-25')).not.toContain('We would like to see how it does');
  });

  it('and the care sheet go by what was done, not by what was advised', async () => {
    const quiltCase = await readCase('cases/guest-room-percale.yaml');
    const care = async (treatment: Treatment) => {
      const done = { ...quiltCase, completed: { on: '2026-11-20', treatment } };
      const doc = await writingAt(done, '2026-11-25');
      expect(doc.answer.treatment).toBe('tie');
      expect(doc.finished?.option.plan.treatment).toBe(treatment);
      return FORMATS.text(sheetOf('care', doc)).replace(/\s+/g, ' ');
    };
    expect(await care('lines')).toContain('It was repaired to be used on a guest bed.');
    const left = await care('leave');
    expect(left).toContain('It was not repaired.');
    expect(left).not.toContain('It was repaired');
  });

  it('is not written before the work is finished', async () => {
    const quiltCase = await readCase(SHIRTS);
    expect(completionReport.unfit(await writingAt(quiltCase, '2024-01-18'))).toContain('no day is on record');
    expect(completionReport.unfit(await writingAt(quiltCase, '2024-01-19'))).toBeUndefined();
    expect(completionReport.unfit(await writingAt(await readCase(SQUARES), '2026-11-25'))).toContain(
      'no day is on record',
    );
  });
});
