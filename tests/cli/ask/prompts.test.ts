import { render } from '@inquirer/testing';
import { describe, expect, test } from 'vitest';
import { ENQUIRY } from '../../../src/interview/enquiry.ts';
import { terminalPrompter } from '../../../src/interview/prompts.ts';
import { questionsOf } from '../../../src/interview/question.ts';
import { faultOf, type Reply } from '../../../src/interview/question-loop.ts';
import type { Terminal } from '../../../src/store/terminal.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

const questionCalled = (id: string) => {
  const found = questionsOf(ENQUIRY, { answers: {}, vocabulary }).find((each) => each.id === id);
  if (found === undefined) throw new Error(`no question ${id}`);
  return found;
};

/** One question through the real prompt, drawn into a test's own screen. */
const put = async (id: string, width = 80) => {
  const told: string[] = [];
  const terminal: Terminal = {
    out: () => undefined,
    err: (text) => told.push(text),
    color: false,
    width,
    canAsk: true,
    today: () => '2026-11-25',
    stamp: () => '2026-11-25T09-00-00-000',
  };
  const question = questionCalled(id);
  const rendered = await render<Reply, undefined>(
    (_: undefined, context) =>
      terminalPrompter(terminal, context).ask(question, (raw) =>
        faultOf(question, raw, { answers: {}, vocabulary }, ENQUIRY),
      ),
    undefined,
  );
  return { ...rendered, told };
};

describe('a question on the screen', () => {
  test('Enter alone passes over a question of yes or no; it never says yes', async () => {
    const { answer, events, getScreen } = await put('survey.findings.sewage_or_fuel');
    expect(getScreen()).toContain('1 yes   2 no');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ kind: 'answer', raw: '' });
    expect(getScreen()).toContain('not known');
  });

  test('a letter or a number finds a choice, and the screen says which', async () => {
    const { answer, events, getScreen } = await put('survey.findings.sewage_or_fuel');
    events.type('n');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ kind: 'answer', raw: 'n' });
    expect(getScreen()).toMatch(/chemicals\? no$/);
  });

  test('what fits no choice is asked for again, on an empty line', async () => {
    const { answer, events, getScreen } = await put('survey.findings.sewage_or_fuel');
    events.type('7 lb');
    events.keypress('enter');
    await expect.poll(() => getScreen()).toContain('"7 lb" is none of the choices');
    events.type('no idea');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ kind: 'answer', raw: 'no idea' });
    expect(getScreen()).toContain('not known');
  });

  test('list and change can be typed at any question', async () => {
    for (const [typed, reply] of [
      ['list', { kind: 'list' }],
      ['change damp', { kind: 'change', wanted: 'damp' }],
      ['BACK', { kind: 'back' }],
    ] as const) {
      const { answer, events } = await put('survey.findings.damp');
      events.type(typed);
      events.keypress('enter');
      await expect(answer).resolves.toEqual(reply);
    }
  });

  test('back is offered everywhere', async () => {
    const { answer, events } = await put('quilt.size.width');
    events.type('back');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ kind: 'back' });
  });

  test('a slip is refused under the line, in the words of the question, and the line can be mended', async () => {
    const { answer, events, getScreen } = await put('quilt.size.width');
    events.type('72 yd');
    events.keypress('enter');
    await expect.poll(() => getScreen()).toContain('! Its width is "72 yd"; it should lie between');
    events.keypress('backspace');
    events.keypress('backspace');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ kind: 'answer', raw: '72 ' });
    expect(getScreen()).toContain('72 in');
  });

  test('breaks between words at 40 columns', async () => {
    const { getScreen, events, answer } = await put('survey.findings.old_green_or_pesticide', 40);
    const lines = getScreen().split('\n');
    expect(lines.slice(0, 4).join(' ').replace(/\s+/g, ' ')).toContain(
      'Is there bright green cloth from before 1900, or any smell of mothballs or pesticide?',
    );
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(40);
    events.keypress('enter');
    await answer;
  });
});
