import { input } from '@inquirer/prompts';
import { paragraph } from '../documents/terminal/layout.ts';
import { CODES } from '../problems/codes.ts';
import type { Terminal } from '../store/terminal.ts';
import { answerAt, UNKNOWN } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import { type Flaw, pathOfId, type Question } from './question.ts';
import type { Prompter, Reply } from './question-loop.ts';

type Context = Parameters<typeof input>[1];

const LOOK = '?';
const BACK = 'back';
const LIST = 'list';
/** Columns a typed answer seldom fills. */
const ROOM_TO_TYPE = 30;

/** Draws questions on stderr, so that stdout stays the answer's. `context` is for tests. */
export function terminalPrompter(
  terminal: Terminal,
  context: Context = { output: process.stderr },
): Prompter {
  const style = { color: terminal.color, width: terminal.width };
  const tell = (lines: readonly string[]): void => {
    terminal.err(['', ...lines.map((line) => laidOut(line, style))].join('\n'));
  };

  /** Broken between words, under the mark before it: the prompt itself would break words. */
  const asked = (text: string): string =>
    paragraph(text, { ...style, width: style.width - 3 }).replaceAll('\n', '\n  ');

  const roomAfter = (message: string): number =>
    style.width - (message.split('\n').at(-1)?.length ?? 0) - (message.includes('\n') ? 2 : 4);

  /** What is typed gets a line of its own where the question leaves too little of its last one. */
  const typedAfter = (message: string): string =>
    roomAfter(message) < ROOM_TO_TYPE ? `${message}\n ` : message;

  const put = async (question: Question, fault: (raw: string) => Flaw | undefined): Promise<string> => {
    const short = asked(question.choices.length > 0 ? question.ask : example(question));
    const full =
      question.choices.length > 0
        ? `${short}\n${choiceLines(question.choices, style)}\n `
        : typedAfter(short);
    const theme = inputTheme(terminal.color);
    return input(
      {
        message: full,
        validate: (raw) => {
          if (commandOf(raw) !== undefined || isWord(raw, LOOK)) return true;
          const flaw = fault(raw);
          return flaw === undefined
            ? true
            : laidOut(sayFlaw(flaw, question), { ...style, width: style.width - 4 });
        },
        transformer: (raw, { isFinal }) =>
          isFinal ? fitting(roomAfter(short), terminal.color ? cyan : same)(understood(question, raw)) : raw,
        theme: {
          ...theme,
          // A wrong measure is mended where it stands; a wrong choice is typed anew.
          validationFailureMode: question.choices.length > 0 ? 'clear' : 'keep',
          style: {
            ...theme.style,
            // Once answered, the list of choices has done its work.
            message: (text: string, status: string) => (status === 'done' ? short : text),
          },
        },
      },
      context,
    );
  };

  return {
    tell,
    ask: async (question, fault): Promise<Reply> => {
      for (;;) {
        const raw = await put(question, fault);
        const command = commandOf(raw);
        if (command !== undefined) return command;
        if (isWord(raw, LOOK)) {
          tell(question.look.length > 0 ? question.look : ['There is nothing more to say about this one.']);
          continue;
        }
        const flaw = fault(raw);
        if (flaw === undefined) return { kind: 'answer', raw };
        tell([sayFlaw(flaw, question)]);
      }
    },
  };
}

/** What is typed at any question and is no answer to it. */
const commandOf = (raw: string): Exclude<Reply, { kind: 'answer' }> | undefined => {
  if (isWord(raw, BACK)) return { kind: 'back' };
  if (isWord(raw, LIST)) return { kind: 'list' };
  const [, wanted] = /^\s*change\s+(.+?)\s*$/i.exec(raw) ?? [];
  return wanted === undefined ? undefined : { kind: 'change', wanted };
};

/** The choices with their numbers: on one line where there is room, else one a line. */
export const choiceLines = (choices: Question['choices'], style: Parameters<typeof paragraph>[1]): string => {
  const each = choices.map(({ label }, index) => `${index + 1} ${label}`);
  const one = `    ${each.join('   ')}`;
  if (one.length < style.width) return one;
  return each
    .map((line) => paragraph(line, { ...style, width: style.width - 1 }, '    ', '      '))
    .join('\n');
};

/** An answer as it was understood: the choice in full, a measure with its unit. */
const understood = (question: Question, raw: string): string => {
  if (commandOf(raw) !== undefined || isWord(raw, LOOK)) return raw;
  const taken = question.take(raw);
  if (!('answers' in taken)) return raw;
  const value = answerAt(taken.answers, pathOfId(question.id));
  if (value === UNKNOWN) return 'not known';
  const choice = question.choices.find((each) => each.value === value);
  return (
    choice?.label ?? (typeof value === 'string' || typeof value === 'number' ? String(value).trim() : raw)
  );
};

const isWord = (raw: string, word: string): boolean => raw.trim().toLowerCase() === word;

const example = ({ ask, example: like }: Question): string =>
  like === undefined ? ask : `${ask} (like ${like})`;

/** A legend's lines keep their indent; sentences wrap. */
const laidOut = (line: string, style: Parameters<typeof paragraph>[1]): string => {
  const [indent = ''] = /^\s*(?:\S\s{2})?/.exec(line) ?? [];
  return paragraph(line.slice(indent.length), style, indent, ' '.repeat(indent.length));
};

/** A fault as one would say it across the table. */
const sayFlaw = ({ code, what, cure, didYouMean }: Flaw, { id, label }: Question): string => {
  const near = didYouMean === undefined ? '' : ` Did you mean "${didYouMean}"?`;
  // Case files call it by its key; whoever is asked knows it by its label.
  const key = id.slice(id.lastIndexOf('.') + 1);
  const named = key.includes('_') || what.startsWith(`${key} `) ? what.replace(key, label) : what;
  const sentence = `${named.charAt(0).toUpperCase()}${named.slice(1)}`;
  return `${sentence}.${near} ${cure ?? CODES[code].cure}`;
};

const same = (text: string): string => text;

/** Signs that any terminal has, and nothing but words. */
const PLAIN = {
  prefix: { idle: '?', done: '-' },
  style: {
    answer: same,
    message: same,
    error: (text: string) => `! ${text}`,
    defaultAnswer: (text: string) => `(${text})`,
    help: same,
    highlight: same,
    key: (text: string) => `<${text}>`,
  },
};

const CHOOSING = { keysHelpTip: () => 'arrows or first letter, then Enter' };

/** An answer stands behind its question where there is room, else on a line of its own: prompts break words. */
const fitting = (room: number, ink: (text: string) => string) => (text: string) =>
  text.length > room ? `\n  ${ink(text)}` : ink(text);

const cyan = (text: string): string => `\u001b[36m${text}\u001b[39m`;

/** How prompts look; `room` is what is left of the question's last line. NO_COLOR and TERM=dumb ask for plain ones. */
export const inputTheme = (
  color: boolean,
): { prefix?: typeof PLAIN.prefix; style?: Partial<typeof PLAIN.style> } => (color ? {} : PLAIN);

export const selectTheme = (color: boolean, room = Number.POSITIVE_INFINITY) =>
  color
    ? { icon: { cursor: '>' }, style: { ...CHOOSING, answer: fitting(room, cyan) } }
    : {
        ...PLAIN,
        icon: { cursor: '>' },
        style: {
          ...PLAIN.style,
          ...CHOOSING,
          answer: fitting(room, same),
          disabled: same,
          description: same,
        },
      };

const STOP = plainQuestion(
  {},
  {
    path: ['stop'],
    ask: 'Stop here?',
    label: 'stop',
    choices: [
      { value: 'yes', label: 'yes, stop and write what is known' },
      { value: 'no', label: 'no, go on asking' },
    ],
    required: true,
  },
);

/** Only a plain yes stops: to go on loses nothing. */
export const offerToStop = async (prompter: Prompter): Promise<boolean> => {
  const reply = await prompter.ask(STOP, (raw) => {
    const taken = STOP.take(raw);
    return 'flaw' in taken ? taken.flaw : undefined;
  });
  if (reply.kind !== 'answer') return false;
  const taken = STOP.take(reply.raw);
  return 'answers' in taken && taken.answers.stop === 'yes';
};
