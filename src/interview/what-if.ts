import { input, search } from '@inquirer/prompts';
import type { Variable } from '../decision/questions/variable.ts';
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
  variables: readonly Variable[],
  faultOf: (change: string) => Problem | undefined,
  terminal: Terminal,
  context: Context = { output: process.stderr },
): Promise<string[]> {
  const changes: string[] = [];
  // What the client chooses is asked about most, so it comes first.
  const ordered = [...variables].sort((a, b) => Number(b.who === 'client') - Number(a.who === 'client'));
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
            .filter((variable) => matches(variable, term ?? ''))
            .map((variable) => ({
              value: variable.id,
              name: within(named(variable), terminal),
              short: variable.label,
            })),
        ],
        pageSize: SHOWN,
        theme: searchTheme(terminal.color),
      },
      context,
    );
    if (id === DONE) return changes;
    const variable = variables.find((each) => each.id === id);
    if (variable !== undefined) changes.push(`${id}=${await valueFor(variable, faultOf, terminal, context)}`);
  }
}

function searchTheme(color: boolean) {
  const theme = selectTheme(color, 0);
  const searchTerm = (text: string): string => text;
  return { ...theme, style: { ...theme.style, searchTerm, keysHelpTip: () => 'arrows, then Enter' } };
}

const matches = (variable: Variable, term: string): boolean =>
  `${variable.label} ${variable.id}`.toLowerCase().includes(term.trim().toLowerCase());

const nowOf = (variable: Variable): string =>
  `now ${variable.current === undefined ? 'not known' : variable.say(variable.current)}`;

const named = (variable: Variable): string => `${variable.label} (${nowOf(variable)})`;

async function valueFor(
  variable: Variable,
  faultOf: (change: string) => Problem | undefined,
  terminal: Terminal,
  context: Context,
): Promise<string> {
  const message = asked(`${sentenceCase(named(variable))}. What if it were`, terminal);
  const choices = variable.likely.map(({ value }) => value).filter((value) => value !== variable.current);
  if (variable.scale === undefined && choices.length > 0)
    return chosen(message, choices.map(optionOf(variable)), terminal, context);
  const last = message.split('\n').at(-1)?.length ?? 0;
  return input(
    {
      message: terminal.width - last < ROOM_TO_TYPE ? `${message}\n ` : message,
      required: true,
      validate: (raw) => {
        const fault = faultOf(`${variable.id}=${raw}`);
        return fault === undefined
          ? true
          : paragraph(formatter(fault, variable), { color: false, width: terminal.width - 4 });
      },
      theme: inputTheme(terminal.color),
    },
    context,
  );
}

const optionOf =
  ({ say }: Variable) =>
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
const formatter = ({ what, cure, code }: Problem, { id, label }: Variable): string =>
  `${sentenceCase(what.replace(id.slice(id.indexOf('.') + 1), label).replace(/^[A-Z]\.|^joins\./, ''))}. ${cure ?? CODES[code].cure}`;

/** Broken between words, under the mark before it: a prompt by itself breaks words. */
const asked = (text: string, { width }: Terminal): string =>
  paragraph(text, { color: false, width: width - 3 }).replaceAll('\n', '\n  ');

const within = (text: string, { width }: Terminal): string =>
  paragraph(text, { color: false, width: width - 3 }).replaceAll('\n', '\n    ');
