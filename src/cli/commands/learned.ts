import { join } from 'node:path';
import { editCase } from '../../casebook/edit-case.ts';
import type { QuiltCase } from '../../casebook/model.ts';
import { contextOf } from '../../decision/context.ts';
import { learnedPage } from '../../documents/pages/learned-page.ts';
import { pageHtml } from '../../documents/render/html.tsx';
import { printPage } from '../../documents/terminal/layout.ts';
import { type Learned, learn } from '../../experience/learned.ts';
import { acceptEdit, changes, type Proposal, priorFigures } from '../../experience/proposal.ts';
import { readFigures } from '../../figures/read-figures.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import type { Source } from '../../source/source.ts';
import { suggest } from '../../source/suggest.ts';
import { caseFiles } from '../../store/case-files.ts';
import { openCase } from '../../store/case-store.ts';
import { loadText } from '../../store/load-text.ts';
import { saveText } from '../../store/save-text.ts';
import { openStudio, relativeName, type Studio } from '../../store/studio.ts';
import { type Terminal, tellProblems } from '../../store/terminal.ts';
import { refusePaper, writePage } from '../../store/write-out.ts';
import { type Action, asOf, studioOptions, textOption } from '../command.ts';
import { refuseShipped } from './rules/rule-file.ts';

export const action: Action = async (typed, terminal) => {
  const file = textOption(typed, 'html');
  const replace = typed.options.replace === true;
  refusePaper(file, replace);
  const studio = await openStudio(studioOptions(typed));
  const style = { color: terminal.color, width: terminal.width };
  const { cases, problems } = await readable(studio);
  // A case that does not read is left out and named: the others still teach.
  tellProblems(problems, terminal);
  const source = await figuresSource(studio);
  const prior = priorFigures(source, studio.knowledge.figures);
  const context = contextOf(studio, asOf(typed, terminal));
  const learned = learn(cases, context, prior);
  const { accept } = typed.options;
  if (Array.isArray(accept)) {
    await take(accept.map(String), { ...learned, source }, studio, terminal);
    return 0;
  }
  if (typed.options.json === true) {
    terminal.out(JSON.stringify(forScripts(learned), null, 2));
    return 0;
  }
  const page = learnedPage(learned, prior.number('experience.least_cases'));
  if (file === undefined) terminal.out(printPage(page, style));
  else await writePage(file, pageHtml(page), replace, terminal);
  return 0;
};

const readable = async (studio: Studio): Promise<{ cases: QuiltCase[]; problems: Problem[] }> => {
  const cases: QuiltCase[] = [];
  const problems: Problem[] = [];
  for (const path of (await caseFiles(studio.casesFolder)).cases) {
    try {
      cases.push((await openCase(path, studio)).case);
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      problems.push(...error.problems);
    }
  }
  return { cases, problems };
};

const figuresPath = ({ rulesFolder }: Studio): string => join(rulesFolder, 'figures.yaml');

const figuresSource = async (studio: Studio): Promise<Source> => {
  const path = figuresPath(studio);
  const read = readYaml(relativeName(path), await loadText(path));
  if ('problems' in read) throw new ProblemError(read.problems);
  return read.source;
};

/** Writes the proposals named; all of them are checked before anything is written, and all go in together. */
const take = async (
  names: readonly string[],
  { proposals, source }: Pick<Learned, 'proposals'> & { readonly source: Source },
  studio: Studio,
  terminal: Terminal,
): Promise<void> => {
  const known = new Map(proposals.map((one) => [one.figure, one]));
  const wanted: Proposal[] = names.includes('all')
    ? [...proposals]
    : names.map((name) => {
        const found = known.get(name);
        if (found !== undefined) return found;
        const near = suggest(name, [...known.keys()]);
        const list = [...known.keys()];
        throw new ProblemError([
          {
            code: 'missing-figure',
            severity: 'error',
            what: `there is no proposal for ${name}`,
            why: 'A figure is proposed only where enough finished and followed-up cases bear on it.',
            cure:
              list.length === 0
                ? 'There are no proposals yet.'
                : `There are proposals for ${list.join(', ')}.`,
            ...(near === undefined ? {} : { didYouMean: near }),
          },
        ]);
      });
  refuseShipped(studio.rulesFolder);
  const changing = wanted.filter(changes);
  if (changing.length === 0) {
    terminal.err('Nothing to change: the figures already say so.');
    return;
  }
  const edits = changing.flatMap((one) => acceptEdit(source, one, terminal.today()) ?? []);
  const text = editCase(source, edits);
  const check = readYaml(source.file, text);
  const problems = 'problems' in check ? check.problems : readFigures(check.source).problems;
  if (problems.length > 0) throw new ProblemError(problems);
  await saveText(figuresPath(studio), text, { expected: source.text, stamp: terminal.stamp() });
  for (const { figure, now, proposed } of changing)
    terminal.err(`${figure}: ${now} is now ${proposed}. The old figure stays beside it under "was".`);
};

const forScripts = ({ evidence, byTreatment, byGrade, ...rest }: Learned) => {
  const group = (groups: Learned['byTreatment']) =>
    groups.map(({ name, lives, due, steps }) => ({ name, quilts: lives.length, due, steps }));
  return {
    schema: 'mendwise/learned@1',
    ...rest,
    outcomes: evidence.map(({ exposure, ...one }) => ({ ...one, exposure: Object.fromEntries(exposure) })),
    by_treatment: group(byTreatment),
    by_grade: group(byGrade),
  };
};
