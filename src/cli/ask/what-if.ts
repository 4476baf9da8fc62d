import { input, search, select } from '@inquirer/prompts';
import type { Knob } from '../../decision/questions/knob.ts';
import type { Terminal } from '../terminal.ts';
import { inputTheme, selectTheme } from './theme.ts';

const DONE = '';

/** Asks for changes one after the other, as `finding=value`, until the person says that is all. */
export async function askForChange(
  knobs: readonly Knob[],
  terminal: Terminal,
  context: Parameters<typeof input>[1] = { output: process.stderr },
): Promise<string[]> {
  const changes: string[] = [];
  for (;;) {
    const id = await search<string>(
      {
        message: changes.length === 0 ? 'What would be otherwise? Type a few letters' : 'And what else?',
        source: (term) => [
          ...(changes.length > 0 && (term ?? '') === ''
            ? [{ value: DONE, name: 'nothing else: show the answer' }]
            : []),
          ...knobs
            .filter((knob) => matches(knob, term ?? ''))
            .map((knob) => ({ value: knob.id, name: named(knob) })),
        ],
        pageSize: 12,
      },
      context,
    );
    if (id === DONE) return changes;
    const knob = knobs.find((each) => each.id === id);
    if (knob !== undefined) changes.push(`${id}=${await valueFor(knob, terminal, context)}`);
  }
}

const matches = (knob: Knob, term: string): boolean =>
  `${knob.label} ${knob.id}`.toLowerCase().includes(term.toLowerCase());

const named = (knob: Knob): string =>
  `${knob.label} (now ${knob.current === undefined ? 'not known' : knob.say(knob.current)})`;

async function valueFor(
  knob: Knob,
  terminal: Terminal,
  context: Parameters<typeof input>[1],
): Promise<string> {
  const choices = knob.likely.map(({ value }) => value).filter((value) => value !== knob.current);
  if (knob.scale === undefined && choices.length > 0) {
    return select(
      {
        message: `What would "${knob.label}" be?`,
        choices: choices.map((value) => ({
          value: typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value),
          name: knob.say(value),
        })),
        loop: false,
        theme: selectTheme(terminal.color),
      },
      context,
    );
  }
  return input(
    { message: `What would "${knob.label}" be?`, required: true, theme: inputTheme(terminal.color) },
    context,
  );
}
