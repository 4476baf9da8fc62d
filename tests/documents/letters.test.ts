import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { printAnswer } from '../../src/documents/terminal/answer.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { DAY, papersOf, sheetOf, shippedStudio } from './papers.ts';

const decided = async (text: string) => {
  const studio = await shippedStudio();
  const [, name = ''] = /^case: (.+)$/m.exec(text) ?? [];
  const { case: quiltCase } = readCase(`${name}.yaml`, text, findingReader(studio.knowledge.vocabulary));
  if (quiltCase === undefined) throw new Error('the case cannot be read');
  return decide(quiltCase, contextOf(studio, DAY));
};

const letter = async (kind: string, text: string): Promise<string> =>
  FORMATS.text(sheetOf(kind, new DocumentContext(await papersOf(await decided(text))))).replace(/\s+/g, ' ');

describe('whom else to ask', () => {
  const dear = readFileSync('cases/bindweed-ninepatch.yaml', 'utf8').replace(
    'monetary_value: 200',
    'monetary_value: 9000',
  );

  it('is said where a rule names somebody for another reason than a hazard', async () => {
    const decision = await decided(dear);
    expect(decision.answer.ask_others.map(({ rule }) => rule)).toContain('worth-far-more-than-the-work');
    const paper = await letter('refer', dear);
    expect(paper.split('An accredited textile conservator')).toHaveLength(2);
    // What the studio's own text adds stays.
    expect(paper).toContain('An independent appraiser');
    const page = printAnswer(decision.answer, decision.situation.quiltCase, { color: false, width: 80 });
    expect(page).toMatch(/Ask others\n {2}- An accredited textile conservator/);
  });

  it('is left to the stop itself where there is a hazard', async () => {
    const poison = dear.replace('old_green_or_pesticide: no', 'old_green_or_pesticide: yes');
    const { answer } = await decided(poison);
    expect(answer.safety.stops.flatMap(({ ask_others }) => ask_others ?? [])).toHaveLength(1);
    expect(answer.ask_others.map(({ text }) => text)).not.toContain(answer.safety.stops[0]?.ask_others);
  });
});

describe('a finished quilt in which a hazard has come up', () => {
  const finished = `${readFileSync('cases/demo/foundry-row-fourpatch.yaml', 'utf8')}resurveys:\n  - { on: 2026-02-01, seen: in hand, findings: { mould_area: 30 in2 } }\n`;

  it('is written of as done, with what comes first, and nothing to approve, to choose or to begin', async () => {
    const paper = await letter('not-yet', finished);
    expect(paper).toContain('Our work on this quilt is done. Something has come up since');
    expect(paper).toContain('Nothing can be done with this quilt until what is in it has been dealt with');
    expect(paper).not.toMatch(/cannot begin|Since your approval|send you an estimate|decided anew/);
  });
});
