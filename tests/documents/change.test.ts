import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { changeOrder } from '../../src/documents/kinds/change.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { DAY, papersOf, shippedStudio } from './papers.ts';

/** Approved on 16 March and opened on 20 March. Nothing in it speaks of single squares yet. */
const LADDER = readFileSync('cases/orchard-ladder.yaml', 'utf8');

/** Two squares found worse once it lay open, one of them flat besides. */
const OPENED = LADDER.replace(
  '    opened: yes\n',
  `    opened: yes
    units: |
      . . . . . .
      . . . . . .
      . e h . . .
      . . . . . .
      . . . . . .
      . . . x . .
      . . . . e .
      . . . . . .
      . . . . . .
      . . . . . .
    also: [F4 stained]
`,
);

const writingOf = async (text: string): Promise<DocumentContext> => {
  const studio = await shippedStudio();
  const { case: quiltCase, problems } = readCase(
    'orchard-ladder.yaml',
    text,
    findingReader(studio.knowledge.vocabulary),
  );
  if (quiltCase === undefined) throw new Error(problems.map(({ what }) => what).join('\n'));
  return new DocumentContext(await papersOf(await decide(quiltCase, contextOf(studio, DAY))));
};

const said = async (text: string): Promise<string> =>
  FORMATS.text(changeOrder.write(await writingOf(text))).replace(/\s+/g, ' ');

describe('a change order', () => {
  it('names the squares that are otherwise, each with what it was and what it is, and no other', async () => {
    const paper = await said(OPENED);
    expect(paper).toContain('We looked at “Ladder quilt in dark and light” again on 20 March 2026');
    expect(paper).toContain('the work that you approved on 16 March 2026');
    expect(paper).toContain('C3: Before Edge frayed; Now With holes');
    expect(paper).toContain('F4: Before No damage seen; Now Lost, stained');
    // C2 and G5 were frayed before and still are.
    expect(paper).not.toMatch(/(C2|G5): Before/);
  });

  it('sets hours, price, years and day beside those approved, and says what the years rest on', async () => {
    const doc = await writingOf(OPENED);
    const paper = await said(OPENED);
    const { hours, price } = doc.answer.since_approval ?? {};
    // Approved as the case has it: 14 hours and $700.
    expect(paper).toMatch(/Hours: Approved 14; Now \d/);
    expect(paper).toMatch(/Price: Approved \$700; Now \$\d/);
    expect(hours?.now).toBeGreaterThan(14);
    expect(price?.now).toBeGreaterThan(700);
    expect(paper).toMatch(/Time until the next repair: Approved .+ years; Now .+ years/);
    // At 20 hours a week and nobody waiting, 14 hours from 16 March are worked within 5 days.
    expect(paper).toContain('Ready, if work begins at once: Approved 21 March 2026; Now');
    expect(paper).toContain('the years are a forecast from judgement and what was seen');
  });

  it('asks for a yes or a no of its own, with the most it may come to, and room to sign', async () => {
    const paper = await said(OPENED);
    const most = (await writingOf(OPENED)).way?.estimates.price.high ?? 0;
    expect(paper).toContain('so we ask for your approval again');
    expect(paper).toContain(
      `[ ] I approve the work as it would be now, up to $${most.toLocaleString('en-US')}.`,
    );
    expect(paper).toContain('[ ] Please stop here.');
    expect(paper).toContain('Client, all owners');
  });

  it('says when the day the client needs it can no longer be kept', async () => {
    const late = OPENED.replace('monetary_value: 100', 'monetary_value: 100\n    deadline: 2026-12-01');
    expect(await said(late)).toContain('would not be ready by 1 December 2026, the day you need it');
    expect(await said(OPENED)).not.toContain('the day you need it');
  });

  it('is not written where nothing was approved, or nobody has looked since', async () => {
    const unapproved = LADDER.replace(/^approved: .*\n/m, '');
    expect(changeOrder.unfit(await writingOf(unapproved))).toContain('no approval is on record');
    const unseen = LADDER.replace(/^resurveys:\n(?: .*\n)+/m, '');
    expect(changeOrder.unfit(await writingOf(unseen))).toContain('nobody has looked at it again');
    expect(changeOrder.unfit(await writingOf(OPENED))).toBeUndefined();
  });

  it('is not written while a hazard stands: nobody approves work on what may not be touched', async () => {
    const mould = OPENED.replace(
      'findings: { hidden_quilt: no }',
      'findings: { hidden_quilt: no, mould_area: 40 in2 }',
    );
    expect(changeOrder.unfit(await writingOf(mould))).toBeDefined();
  });
});
