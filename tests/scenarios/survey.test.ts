import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, test } from 'vitest';
import { SURVEY, SURVEY_OPENING } from '../../src/interview/survey.ts';
import { follow } from './follow.ts';
import { CLEAR, CTRL_C, ENTER, Session } from './session.ts';

const CASE = `# Kept by hand: this note stays.
mendwise: 1
case: small-quilt
opened: 2026-03-02
quilt:
  size: { width: 36 in, height: 27 in } # measured in three places
survey:
  seen: photos
  families:
    A: { name: indigo, fragility: sound }
`;

const BEFORE = {
  opened: '2026-03-02',
  survey: { families: { A: { name: 'indigo' } } },
};

const SCRIPT = {
  'survey.seen': 'in hand',
  'survey.by': 'helper-a',
  // Told before, and measured again now that it is here.
  'quilt.size.width': '36 in',
  'quilt.size.height': '27 in',
  'quilt.construction': 'pieced',
  'quilt.layout.kind': 'edge to edge',
  'quilt.layout.rows': '3',
  'quilt.layout.columns': '4',
  'quilt.batting.kind': 'none',
  'survey.families.A.fragility': 'weak',
  'interview.units': 'map',
  'survey.joins.inspected': '17',
  'survey.joins.open': '3',
  'survey.joins.thread': '2',
  'interview.client': 'no',
};

let folder: string;
let session: Session | undefined;
const open = (): Session => {
  session = new Session([process.execPath, inject('built'), 'survey', 'small-quilt'], { cwd: folder });
  return session;
};
const file = (name: string): string => readFileSync(join(folder, 'cases', name), 'utf8');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-survey-'));
  mkdirSync(join(folder, 'cases'));
  writeFileSync(join(folder, 'cases', 'small-quilt.yaml'), CASE);
});
afterEach(() => {
  session?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a survey in a terminal', () => {
  test('asks again in hand what was told before, with the old answer; a grade from pictures must be given anew', async () => {
    const told = CASE.replace(
      'families:',
      'findings: { damp: no, odour: close }\n  known_by: { damp: told, odour: photos }\n  families:',
    );
    writeFileSync(join(folder, 'cases', 'small-quilt.yaml'), told);
    const sitting = open();
    await sitting.answer('Was it seen in hand or in photos?', 'in hand');
    await sitting.answer('Who is looking?', 'helper-a');
    await sitting.answer('soaked by sewage', '');
    await sitting.answer('Have mice or rats been in it', '');
    await sitting.answer('Have you seen live moths', '');
    await sitting.answer('empty insect skins', '');
    await sitting.answer('(told before: no; Enter keeps it)', '');
    await sitting.answer('visible mould', '');
    await sitting.answer('(seen in pictures: with the nose close; Enter keeps it)', 'fills');
    await sitting.answer('bright green cloth', '');
    await sitting.see('asthma');
    sitting.type(`change A.fragility${ENTER}`);
    await sitting.see('(from pictures: sound)');
    sitting.type(CTRL_C);
    expect(await sitting.end()).toBe(130);
    const kept = file('small-quilt.draft.yaml');
    expect(kept).toMatch(/damp: (?:no|"no")/);
    expect(kept).toContain('odour: in_the_room');
    expect(kept).not.toContain('fragility: sound');
  });

  test('takes the map row by row, refuses a wrong row, survives Ctrl-C and does a row again', async () => {
    const first = open();
    // What matters most comes first: here the seams, before the map.
    const seams = await follow(first, SURVEY, SCRIPT, {
      from: BEFORE,
      until: 'survey.joins.cloth',
      opening: SURVEY_OPENING,
    });
    await first.answer('the cloth tore', '2');
    await first.see('but 3 joins are open');
    await first.answer('Which of them shall be corrected?', 'survey.joins.cloth');
    await first.answer('the cloth tore', '1');
    const joins = { inspected: 17, open: 3, thread: 2, cloth: 1 };
    const answers = await follow(first, SURVEY, SCRIPT, {
      from: { ...seams, survey: { ...Object(seams.survey), joins } },
      until: 'survey.units.A',
      opening: SURVEY_OPENING,
      begun: 'seams',
    });
    await first.see('h a hole, less than a quarter gone');
    await first.answer('Row A, 4 marks', '. . w');
    await first.see('Row A has 3 marks, but the layout has 4 units there');
    // What was typed is still there to mend.
    first.type(` .${ENTER}`);
    await first.answer('Row B, 4 marks', 'q...');
    await first.see('"q" in row B is not a mark of the unit map');
    first.type(`${CLEAR}all h${ENTER}`);
    await first.see('Row C, 4 marks');
    first.type(CTRL_C);
    expect(await first.end()).toBe(130);
    expect(file('small-quilt.draft.yaml')).toMatch(/\. \. w \.\n\s+h h h h/);
    expect(file('small-quilt.yaml')).toBe(CASE);

    const second = open();
    await second.answer('Row C, 4 marks', 'redo b');
    await second.answer('Row B, 4 marks', '.x..');
    await second.answer('Row C, 4 marks', '');
    const mapped = {
      ...answers,
      survey: { ...Object(answers.survey), units: '. . w .\n. x . .\n? ? ? ?\n' },
    };
    await follow(second, SURVEY, SCRIPT, { from: mapped, opening: SURVEY_OPENING, begun: 'units' });
    // At some point nothing open changes the answer: the person was told so, and went on.
    expect(second.screen).toContain('Nothing still open here changes the answer');
    expect(await second.end()).toBe(0);
    const text = file('small-quilt.yaml');
    expect(text).toContain('# Kept by hand: this note stays.');
    expect(text).toContain('# measured in three places');
    expect(text).toMatch(/\. \. w \.\n\s+\. x \. \.\n\s+\? \? \? \?/);
    // Graded from a photo before, graded in hand now.
    expect(text).toContain('fragility: weak');
    expect(text).toContain('seen: in hand');
    expect(text).toContain('by: helper-a');
  });
});
