import { input, search } from '@inquirer/prompts';
import type { Knob } from '../decision/questions/variable.ts';
import { sentenceCase } from '../documents/terminal/labels.ts';
import { paragraph } from '../documents/terminal/layout.ts';
import { CODES } from '../problems/codes.ts';
import type { Problem } from '../problems/problem.ts';
import type { Terminal } from '../store/terminal.ts';
import { choiceLines, inputTheme, selectTheme } from './prompts.ts';
import type { Question } from './question.ts';
import { matchChoice } from './typed.ts';

const DONE = '';
const SHOWN = 12;
/** Columns a typed answer seldom fills. */
const ROOM_TO_TYPE = 20;

type Context = Parameters<typeof input>[1];

/**
 * Asks for changes one after the other, as `finding=value`, until the person says that is all. `faultOf` says what is
 * wrong with a change as written; a line that is typed is refused on the spot, so that nothing said is lost.
 */
export async function askForChange(
  knobs: readonly Knob[],
  faultOf: (change: string) => Problem | undefined,
  terminal: Terminal,
  context: Context = { output: process.stderr },
): Promise<string[]> {
  const changes: string[] = [];
  // What the client chooses is asked about most, so it comes first.
  const ordered = [...knobs].sort((a, b) => Number(b.who === 'client') - Number(a.who === 'client'));
  for (;;) {
    const id = await search<string>(
      {
        message: asked(
          changes.length === 0 ? 'What would be otherwise? Type a few letters' : 'And what else?',
          terminal,
        ),
        source: (term) => [
          ...(changes.length > 0 && (term ?? '') === ''
            ? [{ value: DONE, name: 'nothing else: show the answer' }]
            : []),
          ...ordered
            .filter((knob) => matches(knob, term ?? ''))
            .map((knob) => ({ value: knob.id, name: within(named(knob), terminal), short: knob.label })),
        ],
        pageSize: SHOWN,
        theme: searchTheme(terminal.color),
      },
      context,
    );
    if (id === DONE) return changes;
    const knob = knobs.find((each) => each.id === id);
    if (knob !== undefined) changes.push(`${id}=${await valueFor(knob, faultOf, terminal, context)}`);
  }
}

function searchTheme(color: boolean) {
  const theme = selectTheme(color, 0);
  const searchTerm = (text: string): string => text;
  return { ...theme, style: { ...theme.style, searchTerm, keysHelpTip: () => 'arrows, then Enter' } };
}

const matches = (knob: Knob, term: string): boolean =>
  `${knob.label} ${knob.id}`.toLowerCase().includes(term.trim().toLowerCase());

const nowOf = (knob: Knob): string =>
  `now ${knob.current === undefined ? 'not known' : knob.say(knob.current)}`;

const named = (knob: Knob): string => `${knob.label} (${nowOf(knob)})`;

async function valueFor(
  knob: Knob,
  faultOf: (change: string) => Problem | undefined,
  terminal: Terminal,
  context: Context,
): Promise<string> {
  const message = asked(`${sentenceCase(named(knob))}. What if it were`, terminal);
  const choices = knob.likely.map(({ value }) => value).filter((value) => value !== knob.current);
  if (knob.scale === undefined && choices.length > 0)
    return chosen(message, choices.map(optionOf(knob)), terminal, context);
  const last = message.split('\n').at(-1)?.length ?? 0;
  return input(
    {
      message: terminal.width - last < ROOM_TO_TYPE ? `${message}\n ` : message,
      required: true,
      validate: (raw) => {
        const fault = faultOf(`${knob.id}=${raw}`);
        return fault === undefined
          ? true
          : paragraph(saying(fault, knob), { color: false, width: terminal.width - 4 });
      },
      theme: inputTheme(terminal.color),
    },
    context,
  );
}

const optionOf =
  ({ say }: Knob) =>
  (value: number | string | boolean) => ({
    value: typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value),
    label: say(value),
  });

/** One of several, by its number or how it begins; what fits none is asked for again. */
async function chosen(
  message: string,
  choices: Question['choices'],
  terminal: Terminal,
  context: Context,
): Promise<string> {
  const theme = inputTheme(terminal.color);
  const raw = await input(
    {
      message: `${message}\n${choiceLines(choices, { color: false, width: terminal.width })}\n `,
      validate: (typed) => {
        const match = matchChoice(typed, choices);
        if ('value' in match) return true;
        const { what, cure = '' } = match.flaw;
        return paragraph(`${sentenceCase(what)}. ${cure}`, { color: false, width: terminal.width - 4 });
      },
      theme: { ...theme, validationFailureMode: 'clear' },
    },
    context,
  );
  const match = matchChoice(raw, choices);
  return 'value' in match ? match.value : raw;
}

/** A fault as one would say it across the table: by the finding's label, not by its name in case files. */
const saying = ({ what, cure, code }: Problem, { id, label }: Knob): string =>
  `${sentenceCase(what.replace(id.slice(id.indexOf('.') + 1), label).replace(/^[A-Z]\.|^joins\./, ''))}. ${cure ?? CODES[code].cure}`;

/** Broken between words, under the mark before it: a prompt by itself breaks words. */
const asked = (text: string, { width }: Terminal): string =>
  paragraph(text, { color: false, width: width - 3 }).replaceAll('\n', '\n  ');

const within = (text: string, { width }: Terminal): string =>
  paragraph(text, { color: false, width: width - 3 }).replaceAll('\n', '\n    ');
