import { describe, expect, test } from 'vitest';
import { readVocabulary } from '../../../src/findings/read-vocabulary.ts';
import type { Answers } from '../../../src/interview/answers.ts';
import { ENQUIRY } from '../../../src/interview/enquiry.ts';
import { missingOf, nextQuestion, questionsOf } from '../../../src/interview/question.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { vocabulary, vocabularyText } from '../../findings/vocabulary-fixture.ts';

const ids = (interview: typeof ENQUIRY, answers: Answers = {}): string[] =>
  questionsOf(interview, { answers, vocabulary }).map(({ id }) => id);

const take = (interview: typeof ENQUIRY, answers: Answers, id: string, raw: string): Answers => {
  const question = questionsOf(interview, { answers, vocabulary }).find((each) => each.id === id);
  const taken = question?.take(raw);
  if (taken === undefined || !('answers' in taken)) throw new Error(`${id} does not take "${raw}"`);
  return taken.answers;
};

describe('an enquiry', () => {
  test('begins with what is wrong; then every question of safety comes before any other', () => {
    const [first, ...order] = ids(ENQUIRY);
    expect(first).toBe('client.damage');
    const safety = [...vocabulary.findings.values()]
      .filter(({ group, who }) => group === 'safety' && (who === 'client' || who === 'photos'))
      .map(({ id }) => `survey.findings.${id}`);
    expect(order.slice(0, safety.length)).toEqual(safety);
  });

  test('takes several kinds of damage at once, in numbers or words, and asks how much', () => {
    for (const raw of ['1, 3', '1 3', 'seams and holes', 'open_seams, holes']) {
      const told = take(ENQUIRY, {}, 'client.damage', raw);
      expect(told).toEqual({ client: { damage: ['open_seams', 'holes'] } });
      expect(ids(ENQUIRY, told)[1]).toBe('client.damage_extent');
    }
    expect(ids(ENQUIRY, take(ENQUIRY, {}, 'client.damage', 'nothing'))).not.toContain('client.damage_extent');
    const question = questionsOf(ENQUIRY, { answers: {}, vocabulary })[0];
    for (const raw of ['1, 9', 'seams and moonlight', 'none, torn'])
      expect(question?.take(raw), raw).toHaveProperty('flaw');
  });

  test('asks nothing that wants the quilt in hand', () => {
    const inHand = [...vocabulary.findings.values()].filter(({ who }) => who === 'in hand');
    const order = ids(ENQUIRY);
    for (const { id } of inHand) expect(order).not.toContain(`survey.findings.${id}`);
  });

  test('needs only the size', () => {
    expect(missingOf(ENQUIRY, { answers: {}, vocabulary }).map(({ id }) => id)).toEqual([
      'quilt.size.width',
      'quilt.size.height',
    ]);
  });

  test('does not put a question again that was passed over', () => {
    const first = nextQuestion(ENQUIRY, { answers: {}, vocabulary });
    const passed = take(ENQUIRY, {}, first?.id ?? '', '');
    expect(nextQuestion(ENQUIRY, { answers: passed, vocabulary })?.id).not.toBe(first?.id);
  });

  test('drops what an answer makes needless: a quilt for a bed does not hang', () => {
    expect(ids(ENQUIRY)).toContain('client.hung');
    expect(ids(ENQUIRY, { client: { intended_use: 'guest_bed' } })).not.toContain('client.hung');
    expect(ids(ENQUIRY, { client: { intended_use: 'display' } })).toContain('client.hung');
    expect(ids(ENQUIRY, { client: { intended_use: 'unknown' } })).toContain('client.hung');
  });

  test('asks for a finding that only findings.yaml knows', () => {
    const added = `
  moth_balls_heard_of:
    group: safety
    label: kept with mothballs
    question: Was it ever kept with mothballs?
    kind: yes/no
    at: survey.findings
    how: Ask whoever stored it.
    who: client
    cost: 1
    likely: 0.1
    evidence: studio experience
    source: our own cases
`;
    const text = vocabularyText.replace('\n  # What is wanted\n', `${added}\n  # What is wanted\n`);
    const own = readVocabulary('rules/findings.yaml', text);
    const order = questionsOf(ENQUIRY, { answers: {}, vocabulary: own }).map(({ id }) => id);
    const asked = order.indexOf('survey.findings.moth_balls_heard_of');
    expect(asked).toBeGreaterThan(0);
    expect(asked).toBeLessThan(order.indexOf('quilt.size.width'));
  });

  test('takes a history stretch by stretch until that is all', () => {
    let answers = take(ENQUIRY, {}, 'history.0.use', 'storage');
    expect(ids(ENQUIRY, answers)).toContain('history.0.years');
    answers = take(ENQUIRY, answers, 'history.0.years', '40');
    answers = take(ENQUIRY, answers, 'history.1.use', 'no more');
    expect(ids(ENQUIRY, answers)).not.toContain('history.1.use');
    expect(answers.history).toEqual([{ use: 'storage', years: 40 }]);
  });
});

describe('a survey', () => {
  const seen = { survey: { seen: 'in hand' } };

  test('begins with how it is seen, then safety', () => {
    const order = ids(SURVEY);
    expect(order.slice(0, 2)).toEqual(['survey.seen', 'survey.by']);
    expect(order[2]).toBe('survey.findings.sewage_or_fuel');
    expect(missingOf(SURVEY, { answers: {}, vocabulary })[0]?.id).toBe('survey.seen');
  });

  test('leaves out of a survey by photos what only a hand can tell, but takes grades with a warning', () => {
    const photos: Answers = { survey: { seen: 'photos', families: { A: { name: 'indigo' } } } };
    const order = ids(SURVEY, photos);
    expect(order).not.toContain('quilt.batting.migrated');
    expect(ids(SURVEY, seen)).toContain('quilt.batting.migrated');
    const grade = questionsOf(SURVEY, { answers: photos, vocabulary }).find(
      ({ id }) => id === 'survey.families.A.fragility',
    );
    expect(grade?.look.join(' ')).toContain('A photo cannot grade cloth');
    expect(grade?.look.join(' ')).not.toContain('pinch');
  });

  test('no filling: nothing is asked about the filling', () => {
    const order = ids(SURVEY, { ...seen, quilt: { batting: { kind: 'none' } } });
    for (const name of ['fibre', 'rated_gap', 'migrated', 'crumbling'])
      expect(order).not.toContain(`quilt.batting.${name}`);
    expect(order).not.toContain('survey.findings.hidden_quilt');
  });

  test('names fabrics once, then asks all the vocabulary has of each', () => {
    const answers = take(SURVEY, seen, 'survey.families', 'indigo, shirtings');
    expect(answers.survey).toMatchObject({ families: { A: { name: 'indigo' }, B: { name: 'shirtings' } } });
    const order = ids(SURVEY, answers);
    for (const letter of ['A', 'B'])
      for (const name of ['fragility', 'fibre', 'dye_bleed', 'self_destructing'])
        expect(order).toContain(`survey.families.${letter}.${name}`);
    // Where each fabric is has not been said yet, so no shares are asked for.
    expect(order).not.toContain('survey.families.A.share');
    const shared = take(SURVEY, answers, 'interview.families', 'share');
    expect(ids(SURVEY, shared)).toContain('survey.families.B.share');
  });

  test('asks for one row of the map after the other, on point with its shorter rows', () => {
    const laid: Answers = {
      ...seen,
      quilt: { layout: { kind: 'on point', rows: 2, columns: 3 } },
      interview: { units: 'map' },
    };
    const rows = questionsOf(SURVEY, { answers: laid, vocabulary }).filter(({ id }) =>
      /^survey\.units/.test(id),
    );
    // Two rows of three whole blocks, one of two between them (geometry of a setting on point).
    expect(rows.map(({ ask }) => ask)).toEqual(['Row A, 3 marks:', 'Row B, 2 marks:', 'Row C, 3 marks:']);
  });

  test('causes are asked only until they account for all open seams', () => {
    const joins = (given: Record<string, number>): string[] =>
      ids(SURVEY, { survey: { seen: 'in hand', joins: { inspected: 20, ...given } } }).filter((id) =>
        id.startsWith('survey.joins'),
      );
    expect(joins({ open: 0 })).toEqual(['survey.joins.inspected', 'survey.joins.open']);
    expect(joins({ open: 4, thread: 3 })).toContain('survey.joins.allowance');
    expect(joins({ open: 4, thread: 4 })).not.toContain('survey.joins.cloth');
  });

  test('questions only the client can answer come last and only if wanted', () => {
    expect(ids(SURVEY, seen).at(-1)).toBe('interview.client');
    expect(ids(SURVEY, { ...seen, interview: { client: 'yes' } })).toContain('client.budget');
    expect(ids(SURVEY, { ...seen, interview: { client: 'no' } })).not.toContain('client.budget');
  });
});

describe('several answers in one line', () => {
  const fabric: Answers = { survey: { seen: 'in hand', families: { A: { name: 'indigo' } } } };
  const grade = 'survey.families.A.fragility';

  test('commas answer the rest of a fabric', () => {
    const told = take(SURVEY, fabric, grade, 'weak, cotton, clear, no');
    expect(told.survey).toMatchObject({
      families: {
        A: { fragility: 'weak', fibre: 'cotton', dye_bleed: 'clear', self_destructing: 'no' },
      },
    });
    const some = take(SURVEY, fabric, grade, '3, no idea');
    expect(some.survey).toMatchObject({ families: { A: { fragility: 'weak', fibre: 'unknown' } } });
    expect(ids(SURVEY, some)).toContain('survey.families.A.dye_bleed');
  });

  test('where one of them does not match, none is taken', () => {
    const question = questionsOf(SURVEY, { answers: fabric, vocabulary }).find(({ id }) => id === grade);
    for (const raw of ['weak, moonlight', 'weak, cotton, trace', 'weak, cotton, none, no, no'])
      expect(question?.take(raw), raw).toHaveProperty('flaw');
  });

  test('a map is told by what is not sound, by patterns, and several rows at once', () => {
    const laid: Answers = {
      quilt: { layout: { kind: 'edge to edge', rows: 3, columns: 4 } },
      survey: { seen: 'in hand', families: { A: {}, B: {} } },
    };
    const listed = take(
      SURVEY,
      { ...laid, interview: { units: 'list' } },
      'survey.units',
      'B3x, a1 h C4 = w',
    );
    expect(listed.survey).toMatchObject({ units: 'h . . .\n. . x .\n. . . w\n' });
    const mapped = { ...laid, interview: { units: 'map', families: 'map' } };
    const rows = take(SURVEY, mapped, 'survey.units.A', 'all . / .w+ / as B');
    expect(rows.survey).toMatchObject({ units: '. . . .\n. w . w\n. w . w\n' });
    const fabrics = take(SURVEY, mapped, 'survey.family_map.A', 'AB+/BA+/as A');
    expect(fabrics.survey).toMatchObject({ family_map: 'A B A B\nB A B A\nA B A B\n' });
    const listing = { answers: { ...laid, interview: { units: 'list' } }, vocabulary };
    const question = questionsOf(SURVEY, listing).find(({ id }) => id === 'survey.units');
    for (const raw of ['D1 x', 'B3 q', 'B3', 'all of them', 'B3 x and more'])
      expect(question?.take(raw), raw).toHaveProperty('flaw');
  });
});

describe('what follows is not asked', () => {
  const seen = (survey: Answers): Answers => ({ survey: { seen: 'in hand', ...survey } });
  const families = (...fibres: string[]): Answers => ({
    families: Object.fromEntries(fibres.map((fibre, index) => ['ABC'.charAt(index), { fibre }])),
  });

  test('splitting silk is asked for once the fabrics are told, and not where none is silk', () => {
    const silk = 'survey.findings.shattering_silk';
    const order = ids(SURVEY, seen({}));
    expect(order.indexOf(silk)).toBeGreaterThan(order.indexOf('survey.families'));
    expect(ids(SURVEY, seen(families('cotton', 'wool')))).not.toContain(silk);
    expect(ids(SURVEY, seen(families('cotton', 'silk')))).toContain(silk);
    // A fibre that nobody could tell may be silk.
    expect(ids(SURVEY, seen(families('cotton', 'unknown')))).toContain(silk);
  });

  test('a map says by itself whether all damage is in the outer rows', () => {
    const outer = 'survey.findings.loss_in_outer_rows_only';
    expect(ids(SURVEY, seen({}))).toContain(outer);
    expect(ids(SURVEY, seen({ units: '. .\n. .\n' }))).not.toContain(outer);
    expect(ids(SURVEY, seen({ counts: { of: 4 } }))).toContain(outer);
  });

  test('many scraps are told as one group', () => {
    const told = take(SURVEY, seen({}), 'survey.families', 'about forty prints, worn alike, indigo');
    expect(told.survey).toMatchObject({
      families: { A: { name: 'about forty prints worn alike' }, B: { name: 'indigo' } },
    });
    const parted = take(SURVEY, seen({}), 'survey.families', 'red, faded; blue');
    expect(parted.survey).toMatchObject({ families: { A: { name: 'red, faded' }, B: { name: 'blue' } } });
  });

  test('naming the fabrics again keeps the letters and what was said of each', () => {
    const before = seen({ families: { A: { name: 'indigo', fragility: 'weak' }, B: { name: 'red' } } });
    const after = take(SURVEY, before, 'survey.families', 'brown, Indigo');
    expect(after.survey).toMatchObject({
      families: { B: { name: 'brown' }, A: { name: 'indigo', fragility: 'weak' } },
    });
  });
});

describe('constructions with a way of their own', () => {
  const asked = (construction: string): string[] =>
    questionsOf(SURVEY, {
      answers: { survey: { seen: 'in hand' }, quilt: { construction } },
      vocabulary,
    }).map(({ id }) => id);

  // Folded windows take no batting: oocities.org/heartland/ranch/5857/cathedralwindows.html; the others common practice.
  test.each(['puffed_squares', 'yo_yo', 'cathedral_window'])(
    '%s are not asked for a layer of filling',
    (each) => {
      expect(asked(each).filter((id) => id.startsWith('quilt.batting'))).toEqual([]);
      expect(asked('pieced').filter((id) => id.startsWith('quilt.batting'))).toHaveLength(5);
      // The back and what holds it together are asked of all.
      expect(asked(each)).toEqual(expect.arrayContaining(['quilt.backing.kind', 'quilt.joining.kind']));
    },
  );
});
