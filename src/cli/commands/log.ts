import { contextOf } from '../../decision/context.ts';
import { evaluate } from '../../decision/evaluate.ts';
import { heading, row } from '../../documents/terminal/layout.ts';
import { OPERATION_NAMES } from '../../experience/hours-learned.ts';
import { planDone } from '../../experience/life-evidence.ts';
import { ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { appendEntry, given, type OpenCase, openCase } from '../../store/case-store.ts';
import { openStudio, type Studio } from '../../store/studio.ts';
import { type Terminal, tellProblems } from '../../store/terminal.ts';
import { type Action, studioOptions, textOption } from '../command.ts';
import { tellHazard } from '../hazard.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  const [, said, time] = typed.args;
  if (said === undefined) {
    listOperations(opened, studio, terminal);
    return 0;
  }
  const operation = operationNamed(said);
  const hours = hoursIn(time);
  const count = textOption(typed, 'count');
  const entry = given({
    on: textOption(typed, 'on') ?? terminal.today(),
    by: textOption(typed, 'by'),
    operation,
    hours,
    count: count === undefined || Number.isNaN(Number(count)) ? count : Number(count),
    note: textOption(typed, 'note'),
  });
  const warnings = await appendEntry(opened, { list: 'log', entry }, studio, terminal);
  tellProblems(warnings, terminal);
  tellHazard(opened.case, studio, terminal);
  const before = (opened.case.log ?? []).filter((one) => one.operation === operation);
  const sum = before.reduce((total, one) => total + one.hours, 0) + hours;
  terminal.err(
    `Written to ${opened.case.case}: ${operation}, ${hours} h; ${Number(sum.toFixed(2))} h in all.`,
  );
  return 0;
};

/** Any beginning of a name that means one operation will do. */
const operationNamed = (said: string): string => {
  const word = said.trim().toLowerCase();
  const exact = OPERATION_NAMES.find((name) => name === word);
  if (exact !== undefined) return exact;
  const beginning = OPERATION_NAMES.filter((name) => name.startsWith(word));
  const [only] = beginning;
  if (beginning.length === 1 && only !== undefined) return only;
  const near = suggest(said, OPERATION_NAMES);
  throw new ProblemError([
    {
      code: 'not-an-option',
      severity: 'error',
      what:
        beginning.length > 1
          ? `"${said}" begins more than one operation: ${beginning.join(', ')}`
          : `"${said}" is not an operation`,
      why: 'Hours are compared with the estimate operation by operation.',
      cure: `Use one of: ${OPERATION_NAMES.map((name) => (name.includes(',') ? `"${name}"` : name)).join('; ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
};

/** What a stretch of time is written as, and the minutes it comes to. */
const TIMES: readonly (readonly [RegExp, (figures: readonly number[]) => number])[] = [
  [/^(\d+(?:\.\d+)?)h?$/, ([hours = 0]) => hours * 60],
  [/^(\d+(?:\.\d+)?)(?:m|min)$/, ([minutes = 0]) => minutes],
  [/^(\d+)h(\d{1,2})(?:m|min)?$/, ([hours = 0, minutes = 0]) => hours * 60 + minutes],
];

/** Hours from `2.5h`, `2.5`, `45min` or `1h30`. Throws ProblemError bad-quantity. */
export const hoursIn = (text: string | undefined): number => {
  const word = (text ?? '').trim().toLowerCase().replace(/\s+/g, '');
  for (const [pattern, minutesOf] of TIMES) {
    const found = pattern.exec(word);
    const minutes = found === null ? 0 : minutesOf(found.slice(1).map(Number));
    if (minutes > 0) return Number((minutes / 60).toFixed(2));
  }
  throw new ProblemError([
    {
      code: 'bad-quantity',
      severity: 'error',
      what: text === undefined ? 'the hours are missing' : `"${text}" cannot be read as hours`,
      cure: 'Write 2.5h, 45min or 1h30, more than nothing.',
    },
  ]);
};

const listOperations = (opened: OpenCase, studio: Studio, terminal: Terminal): void => {
  const style = { color: terminal.color, width: terminal.width };
  const done = planDone(evaluate(opened.case, contextOf(studio, terminal.today())));
  const { log = [] } = opened.case;
  const rows = (done?.estimator.hours().operations ?? []).map(({ operation, hours }) => {
    const worked = log.filter((one) => one.operation === operation).reduce((sum, one) => sum + one.hours, 0);
    return row(
      operation,
      `${hours.low.toFixed(1)} to ${hours.high.toFixed(1)} h estimated, ${worked.toFixed(1)} h worked`,
      style,
      34,
    );
  });
  terminal.out([heading(`Hours on ${opened.case.case}`, style).trimStart(), ...rows].join('\n'));
};
