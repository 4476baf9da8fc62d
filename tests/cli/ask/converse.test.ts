import { describe, expect, test } from 'vitest';
import type { Answers } from '../../../src/interview/answers.ts';
import { ENQUIRY } from '../../../src/interview/enquiry.ts';
import { type Prompter, runQuestionLoop } from '../../../src/interview/question-loop.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

interface Heard {
  readonly asked: string[];
  readonly faults: string[];
  readonly kept: Answers[];
  readonly texts: string[];
  readonly told: string[];
}

/** Answers in turn by question; what is not named is passed over. A faulty answer is followed by the next one. */
const loop = async (
  interview: typeof ENQUIRY,
  script: Record<string, string[]>,
  known: Answers = {},
  enough = async (_: Answers) => false,
): Promise<{ said: Answers } & Heard> => {
  const heard: Heard = { asked: [], faults: [], kept: [], texts: [], told: [] };
  const prompter: Prompter = {
    tell: (lines) => heard.told.push(...lines),
    ask: async (question, fault) => {
      for (;;) {
        heard.asked.push(question.id);
        heard.texts.push(question.ask);
        const raw = script[question.id]?.shift() ?? '';
        if (raw === 'back' || raw === 'list') return { kind: raw };
        if (raw.startsWith('change ')) return { kind: 'change', wanted: raw.slice('change '.length) };
        const flaw = fault(raw);
        if (flaw === undefined) return { kind: 'answer', raw };
        heard.faults.push(flaw.what);
        if (heard.faults.length > 20) throw new Error(`nothing does for ${question.id}: ${flaw.what}`);
      }
    },
  };
  const said = await runQuestionLoop({
    interview,
    vocabulary,
    known,
    said: {},
    prompter,
    enough,
    confirmed: async (now) => {
      heard.kept.push(now);
    },
  });
  return { said, ...heard };
};

const size = () => ({ 'quilt.size.width': ['60 in'], 'quilt.size.height': ['80 in'] });

describe('the conversation', () => {
  test('keeps each answer before it puts the next question', async () => {
    const { kept, asked } = await loop(ENQUIRY, { ...size(), 'survey.findings.damp': ['no'] });
    expect(kept).toHaveLength(asked.length);
    const told = kept.findIndex((now) => JSON.stringify(now).includes('"damp":"no"'));
    expect(asked[told]).toBe('survey.findings.damp');
  });

  test('an answer the case file would refuse is refused in the same words, and asked for again', async () => {
    const { faults, said } = await loop(ENQUIRY, {
      'quilt.size.width': ['wide', '0 in', '60 in'],
      'quilt.size.height': ['80 in'],
      'client.wanted_years': ['ten', '10 years'],
    });
    expect(faults).toEqual([
      '"wide" cannot be read as a length for width',
      'width is "0 in"; it should lie between 1/8 in and 400 in',
      'wanted_years wants a number, not "ten"',
    ]);
    expect(said).toMatchObject({ quilt: { size: { width: '60 in' } }, client: { wanted_years: 10 } });
  });

  test('no person’s name is taken for a reference', async () => {
    const { faults, said } = await loop(ENQUIRY, { ...size(), 'client.ref': ['Ada Example', 'C-014'] });
    expect(faults).toEqual(['"Ada Example" cannot be the reference for client.ref']);
    expect(said).toMatchObject({ client: { ref: 'C-014' } });
  });

  test('going back shows the answer and erases nothing: Enter keeps it', async () => {
    const { said, asked, texts } = await loop(ENQUIRY, {
      ...size(),
      'survey.findings.sewage_or_fuel': ['yes', '', 'no'],
      'survey.findings.rodent_waste': ['back', 'back', ''],
    });
    expect(asked.slice(1, 7)).toEqual([
      'survey.findings.sewage_or_fuel',
      'survey.findings.rodent_waste',
      'survey.findings.sewage_or_fuel',
      'survey.findings.rodent_waste',
      'survey.findings.sewage_or_fuel',
      'survey.findings.rodent_waste',
    ]);
    expect(texts[3]).toMatch(/\(now: yes; Enter keeps it\)$/);
    expect(texts[5]).toMatch(/\(now: yes; Enter keeps it\)$/);
    expect(said).toMatchObject({ survey: { findings: { sewage_or_fuel: 'no' } } });
  });

  test('any answer can be looked up and corrected, and the question at hand comes back', async () => {
    const { said, asked, told } = await loop(ENQUIRY, {
      'survey.findings.sewage_or_fuel': ['no', 'yes'],
      'survey.findings.damp': ['no', 'unknown'],
      'quilt.size.width': ['60 in'],
      'quilt.size.height': ['list', 'change sewage or fuel', 'change damp', 'change no such thing', '80 in'],
    });
    expect(told.join('\n')).toContain('soaked by sewage, fuel or chemicals: no');
    expect(told.join('\n')).toContain('No question here is called "no such thing"');
    const at = asked.indexOf('quilt.size.height');
    expect(asked.slice(at, at + 7)).toEqual([
      'quilt.size.height',
      'quilt.size.height',
      'survey.findings.sewage_or_fuel',
      'quilt.size.height',
      'survey.findings.damp',
      'quilt.size.height',
      'quilt.size.height',
    ]);
    expect(said).toMatchObject({
      survey: { findings: { sewage_or_fuel: 'yes', damp: 'unknown' } },
      quilt: { size: { width: '60 in', height: '80 in' } },
    });
  });

  test('once enough is known, only what a case cannot be without is asked', async () => {
    const { asked } = await loop(ENQUIRY, size(), {}, async (answers) => Object.keys(answers).length > 0);
    expect(asked).toEqual(['client.damage', 'quilt.size.width', 'quilt.size.height']);
  });

  test('a row of the map is held to the layout and its marks, and an earlier one can be done again', async () => {
    const known: Answers = {
      quilt: {
        size: { width: '27 in', height: '18 in' },
        layout: { kind: 'edge to edge', rows: 2, columns: 3, finished: '9 in x 9 in', pieces_per_unit: 1 },
      },
      survey: { seen: 'in hand' },
      interview: { units: 'map' },
    };
    const { said, faults, asked } = await loop(
      SURVEY,
      { 'survey.units.A': ['. .', '. q .', '. . .', 'x x x'], 'survey.units.B': ['redo A', 'all w'] },
      known,
    );
    expect(faults.slice(0, 2)).toEqual([
      'row A has 2 marks, but the layout has 3 units there',
      '"q" in row A is not a mark of the unit map',
    ]);
    expect(said).toMatchObject({ survey: { units: 'x x x\nw w w\n' } });
    expect(asked.filter((id) => id.startsWith('survey.units'))).toEqual(
      ['A', 'A', 'A', 'B', 'A', 'B'].map((row) => `survey.units.${row}`),
    );
  });

  test('where two answers disagree both are shown, and either can be corrected', async () => {
    const joins = () => ({ 'survey.joins.inspected': ['10'], 'survey.joins.thread': ['2'] });
    const known = { survey: { seen: 'in hand' } };
    const one = await loop(
      SURVEY,
      {
        ...size(),
        ...joins(),
        'survey.joins.open': ['3'],
        'survey.joins.cloth': ['5', '0'],
        'survey.joins.allowance': ['1'],
        disagreement: ['survey.joins.cloth'],
      },
      known,
    );
    expect(one.told.join()).toContain('thread, cloth and allowance add up to 7, but 3 joins are open');
    expect(one.said).toMatchObject({ survey: { joins: { open: 3, thread: 2, cloth: 0, allowance: 1 } } });
    const other = await loop(
      SURVEY,
      {
        ...size(),
        ...joins(),
        'survey.joins.open': ['3', '7'],
        'survey.joins.cloth': ['5'],
        disagreement: ['survey.joins.open'],
      },
      known,
    );
    expect(other.said).toMatchObject({ survey: { joins: { open: 7, thread: 2, cloth: 5 } } });
  });

  test('a map is held to other answers only once its last row is there', async () => {
    const known: Answers = {
      quilt: {
        size: { width: '27 in', height: '18 in' },
        layout: { kind: 'edge to edge', rows: 2, columns: 3, finished: '9 in x 9 in', pieces_per_unit: 1 },
      },
      survey: {
        seen: 'in hand',
        families: { A: { name: 'indigo' }, B: { name: 'shirting' } },
        units: '. . .\n. . .\n',
      },
      interview: { families: 'map' },
    };
    const { said, told } = await loop(
      SURVEY,
      { 'survey.family_map.A': ['AAA'], 'survey.family_map.B': ['BBB'] },
      known,
    );
    expect(told.join()).not.toContain('do not go together');
    expect(said).toMatchObject({ survey: { family_map: 'A A A\nB B B\n' } });
  });
});
