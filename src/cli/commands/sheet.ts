import { extname, resolve } from 'node:path';
import { contextOf, type DecisionContext } from '../../decision/context.ts';
import { type Decision, decide } from '../../decision/decide.ts';
import { DocumentContext } from '../../documents/document-context.ts';
import { KIND_FOR, KINDS } from '../../documents/kinds/all.ts';
import type { Kind } from '../../documents/kinds/frame.ts';
import type { Sheet } from '../../documents/model.ts';
import { toHtml } from '../../documents/render/html.tsx';
import { toMarkdown } from '../../documents/render/markdown.ts';
import { toText } from '../../documents/render/text.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { oneOf } from '../../source/quote.ts';
import { suggest } from '../../source/suggest.ts';
import { openCase } from '../../store/case-store.ts';
import { gatherPapers } from '../../store/document-input.ts';
import { openStudio, relativeName } from '../../store/studio.ts';
import { openFile, tellProblems } from '../../store/terminal.ts';
import { refusePaper, writePaper } from '../../store/write-out.ts';
import { type Action, asOf, studioOptions, type Typed, textOption } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const asked = chosen(typed, 'kind', [...KINDS.map(({ name }) => name), 'letter']);
  const out = textOption(typed, 'out');
  const format = formatFor(typed, out);
  if (out === '-' && typed.options.open === true)
    throw refusal(
      '--open has nothing to open when the document is printed',
      'Leave out --open, or name a file.',
    );
  const replace = typed.options.replace === true;
  refusePaper(out, replace);
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  const day = asOf(typed, terminal);
  const context = contextOf(studio, day);
  const decided = await decide(opened.case, context);
  const name = asked ?? KIND_FOR[decided.answer.standing];
  const quick = typed.options.quick === true || KINDS.some((each) => each.name === name && !each.questions);
  const decision = quick ? decided : await questioned(decided, context);
  const { papers, warnings } = await gatherPapers(decision, opened, studio);
  const all = [...opened.warnings, ...warnings];
  tellProblems(all, terminal);
  const doc = new DocumentContext(papers);
  const kind = kindFor(asked, doc);
  const text = FORMATS[format](kind.write(doc));
  if (out === '-') {
    terminal.out(text);
    return 0;
  }
  const path = resolve(out ?? `${opened.case.case}-${kind.name}${ENDINGS[format]}`);
  await writePaper(path, text, replace, terminal);
  terminal.err(`Written: ${relativeName(path)}`);
  if (typed.options.open === true) await openFile(path);
  return 0;
};

/** What would change the answer and how firm it is: the sweeps take longest, and their code is loaded when wanted. */
async function questioned(decision: Decision, context: DecisionContext): Promise<Decision> {
  const { question } = await import('../../decision/questions/ask.ts');
  const questions = await question(decision, context);
  return { ...decision, answer: { ...decision.answer, ...questions } };
}

const ENDINGS: Readonly<Record<Format, string>> = { html: '.html', markdown: '.md', text: '.txt' };

const refusal = (what: string, cure: string, rest: Partial<Problem> = {}): ProblemError =>
  new ProblemError([{ code: 'usage', severity: 'error', what, cure, ...rest }]);

function chosen(typed: Typed, name: string, choices: readonly string[]): string | undefined {
  const given = textOption(typed, name);
  if (given === undefined || choices.includes(given)) return given;
  const near = suggest(given, choices);
  throw refusal(
    `there is no ${name} "${given}"`,
    `Use ${oneOf(choices)}.`,
    near === undefined ? {} : { didYouMean: near },
  );
}

function formatFor(typed: Typed, out: string | undefined): Format {
  const names = Object.keys(FORMATS) as Format[];
  const given = chosen(typed, 'format', names);
  const byEnding = names.find((name) => ENDINGS[name] === extname(out ?? '').toLowerCase());
  return names.find((name) => name === given) ?? byEnding ?? 'html';
}

function kindFor(asked: string | undefined, doc: DocumentContext): Kind {
  const usual = KIND_FOR[doc.answer.standing];
  if (asked === 'letter' && usual === 'decision')
    throw refusal(
      'there is no letter to write: the answer is to go ahead',
      'Write the decision sheet instead: --kind decision.',
    );
  const name = asked === undefined || asked === 'letter' ? usual : asked;
  const kind = KINDS.find((each) => each.name === name);
  if (kind === undefined) throw new Error(`no document "${name}"`);
  const unfit = kind.unfit(doc);
  if (unfit !== undefined)
    throw refusal(
      `--kind ${name} does not fit this case: ${unfit}`,
      usual === 'decision'
        ? 'Write --kind decision instead, which fits every answer.'
        : `Write --kind ${usual} instead, or --kind decision, which fits every answer.`,
      { why: 'A paper that does not go with the answer would mislead whoever holds it.' },
    );
  return kind;
}

/** The formats a document can be written in, by the name asked for. */
export const FORMATS = { html: toHtml, markdown: toMarkdown, text: toText } as const satisfies Readonly<
  Record<string, (sheet: Sheet) => string>
>;
export type Format = keyof typeof FORMATS;
