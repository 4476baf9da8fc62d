import { beforeAll, describe, expect, it } from 'vitest';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import type { DocumentContext } from '../../src/documents/document-context.ts';
import type { Block, Sheet, Words } from '../../src/documents/model.ts';
import { sheetOf, writingOn } from './papers.ts';

// Items in the manner of the International Patient Decision Aid Standards (IPDAS) checklist, carried over to quilts;
// from memory, in this project's own wording. One test an item.

let doc: DocumentContext;
let sheet: Sheet;
let html: string;
let text: string;

beforeAll(async () => {
  doc = await writingOn('bindweed-ninepatch', true);
  sheet = sheetOf('decision', doc);
  html = FORMATS.html(sheet);
  text = FORMATS.text(sheet).replace(/\s+/g, ' ');
}, 180_000);

const titles = (): (string | undefined)[] => sheet.sections.map(({ title }) => title);
const blocks = (): readonly Block[] => sheet.sections.flatMap((section) => section.blocks);
const said = (words: Words): string =>
  typeof words === 'string'
    ? words
    : words.map((run) => (typeof run === 'string' ? run : 'strong' in run ? run.strong : '')).join('');
const compare = () => {
  const found = blocks().find((block) => block.kind === 'compare');
  if (found?.kind !== 'compare') throw new Error('no comparison');
  return found;
};
const advice = () => {
  const found = sheet.sections.filter(({ apart }) => apart === true);
  if (found.length !== 1 || found[0] === undefined) throw new Error('the advice is not one section apart');
  return found[0];
};

describe('the estimate', () => {
  it('says what changed since it was approved, and asks again', async () => {
    const approved = sheetOf('estimate', await writingOn('../tests/casebook/fixtures/orchard-fourpatch'));
    const said = FORMATS.text(approved).replace(/\s+/g, ' ');
    expect(said).toContain('Hours: Approved 14; Now');
    expect(said).toContain('Price: Approved $640; Now');
    expect(said).toContain('so we ask for your approval again');
  });

  it('does not say of a quilt that lies open that it is not opened', async () => {
    const opened = sheetOf('estimate', await writingOn('../tests/casebook/fixtures/orchard-fourpatch'));
    const said = FORMATS.text(opened).replace(/\s+/g, ' ');
    expect(said).toContain('one stage, because no layer has still to be opened');
    expect(said).not.toContain('is not opened');
  });
});

describe('the decision sheet, item by item', () => {
  it('describes the object and the decision before any advice', () => {
    const order = [
      'Your quilt as we found it',
      'What there is to decide',
      'Five ways, side by side',
      'Our advice',
    ];
    expect(titles().slice(0, 4)).toEqual(order);
    expect(text.indexOf('We advise')).toBeGreaterThan(text.indexOf('Can it be undone?'));
  });

  it('lists every option, doing nothing first among them', () => {
    expect(compare().options).toHaveLength(5);
    expect(compare().options[0]).toBe('Leave it as it is');
  });

  it('answers the same rows for each option, with no blank', () => {
    expect(compare().rows.map(({ name }) => name)).toEqual([
      'What is done',
      'What changes to the look',
      'New holes in old cloth',
      'Time until the next repair',
      'Hours of work',
      'Price',
      'What it is like to live with',
      'Can it be undone?',
    ]);
    for (const { cells } of compare().rows) {
      expect(cells).toHaveLength(5);
      for (const cell of cells) expect(cell.map(said).join('').trim()).not.toBe('');
    }
  });

  it('marks no option as ours in the comparison, and sets the advice apart by its title', () => {
    const before = text.slice(0, text.indexOf('Our advice --'));
    expect(before.length).toBeGreaterThan(1000);
    expect(before).not.toMatch(/recommend|we advise/i);
    expect(advice().title).toBe('Our advice');
  });

  it('gives at most three reasons first, word for word those of the answer', () => {
    const list = advice().blocks.find((block) => block.kind === 'list');
    if (list?.kind !== 'list') throw new Error('no reasons');
    expect(list.items.length).toBeLessThanOrEqual(3);
    expect(list.items.map(said)).toEqual(doc.answer.reasons.slice(0, 3).map(({ because }) => because));
  });

  it('says why not each of the others', () => {
    const facts = advice().blocks.find((block) => block.kind === 'facts');
    if (facts?.kind !== 'facts') throw new Error('no "rather than"');
    expect(facts.rows.map(({ text: words }) => said(words))).toEqual(
      doc.answer.rather_than.map(({ sentence }) => sentence),
    );
    expect(facts.rows).toHaveLength(4);
  });

  it('tells every change of mind that was verified by re-running, and none besides', () => {
    const changes = doc.answer.would_change ?? [];
    expect(changes.length).toBeGreaterThan(0);
    const section = sheet.sections.find(({ title }) => title === 'What would change our advice');
    const items = (section?.blocks ?? []).flatMap((block) =>
      block.kind === 'list' ? block.items.map(said) : [],
    );
    expect(items).toHaveLength(changes.length);
    for (const { changes: parts } of changes)
      for (const { to, from } of parts)
        expect(items.some((item) => item.includes(`“${to}” instead of “${from}”`))).toBe(true);
  });

  it('leaves that out where it was not worked out', async () => {
    const quick = sheetOf('decision', await writingOn('bindweed-ninepatch'));
    expect(quick.sections.map(({ title }) => title)).not.toContain('What would change our advice');
    expect(FORMATS.text(quick)).not.toMatch(/null|undefined|NaN/);
  });

  it('says what is not known', () => expect(titles()).toContain('What we do not know'));

  it('gives evidence for each reason, by number', () => {
    const notes = [...html.matchAll(/href="#(evidence-\d+)"/g)].map((match) => match[1]);
    expect(notes.length).toBeGreaterThanOrEqual(doc.answer.reasons.length);
    for (const note of notes) expect(html).toContain(`id="${note}"`);
    // The kind of source stands there; addresses are for the rule book.
    const kinds = { published: 'Published', 'common practice': 'Common practice' } as Record<string, string>;
    for (const { evidence } of doc.answer.reasons) expect(text).toContain(kinds[evidence] ?? '');
    expect(text.replace('studio@example.org', '')).not.toMatch(/\b\w+\.(com|org|gov|net)\b|blogspot/);
  });

  it('tells time as ranges for one use and one horizon, and as frequencies', () => {
    const uses = new Set(doc.answer.options.map(({ estimates }) => estimates.life_years.use));
    const horizons = new Set(doc.answer.options.map(({ estimates }) => estimates.life_years.horizon));
    expect([uses.size, horizons.size]).toEqual([1, 1]);
    expect(text).toContain('8 chances in 10');
    expect(text).toMatch(/forecast from judgement/);
    for (const cell of compare().rows[3]?.cells ?? [])
      expect(said(cell[0] ?? '')).toMatch(/ to |more than|no time/i);
  });

  it('marks what cannot be undone by a sign and by words', () => {
    expect(text).toContain('▲ Cannot be undone:');
    expect(text).toContain('▲ marks what cannot be undone.');
  });

  it('asks for the client’s values before the options, and has room for choice and signature', () => {
    expect(text.indexOf('What matters most to you?')).toBeLessThan(text.indexOf('New holes in old cloth'));
    const choice = sheet.sections.find(({ title }) => title === 'My choice');
    expect(choice?.blocks.map(({ kind }) => kind)).toEqual(['paragraph', 'choices', 'signatures']);
    const boxes = choice?.blocks[1];
    if (boxes?.kind !== 'choices') throw new Error('no boxes');
    expect(boxes.options.map(said)[0]).toBe('Leave it as it is');
    expect(boxes.options.length).toBe(7);
  });

  it('bears date, version, validity and interest', () => {
    expect(sheet.particulars.map(({ name }) => name)).toEqual([
      'Client',
      'Case',
      'Date',
      'Stands until',
      'Rulebook',
    ]);
    expect(text).toContain('27 November 2026');
    expect(text).toContain('27 December 2026');
    expect(text).toContain(doc.answer.rulebook.version);
    expect(text).toContain('We are paid for treatment.');
  });

  it('shows no code, rule name or term of the machine', () => {
    for (const { rule } of doc.answer.reasons) expect(html).not.toContain(rule);
    expect(text).not.toMatch(/\b[a-z]+_[a-z_]+\b/);
    expect(text).not.toMatch(/undefined|null|NaN|\[object/);
  });

  it('says the same in every format, and the same bytes each time', () => {
    const again = sheetOf('decision', doc);
    for (const format of Object.values(FORMATS)) expect(format(again)).toBe(format(sheet));
    const markdown = FORMATS.markdown(sheet).replace(/\\/g, '');
    for (const { because } of doc.answer.reasons) {
      expect(markdown).toContain(because.replace(/&/g, '&amp;'));
      expect(text).toContain(because);
    }
  });
});
