import { asSurveyed } from '../../casebook/second-survey.ts';
import { contextOf, type DecisionContext } from '../../decision/context.ts';
import { type HelpersReport, helpersPage } from '../../documents/pages/helpers-page.ts';
import { pageHtml } from '../../documents/render/html.tsx';
import { printPage } from '../../documents/terminal/layout.ts';
import {
  agreement,
  drift,
  type GradingReport,
  gradingReport,
  type Surveyed,
} from '../../experience/agreement.ts';
import { disagreements, FIRST } from '../../experience/disagreement.ts';
import { gradingsIn } from '../../experience/grading.ts';
import {
  disagreementsForScripts,
  openAllSurveyed,
  openSurveyed,
  type SurveyedCase,
} from '../../store/second-surveys.ts';
import { formatterOf, openStudio, type Studio } from '../../store/studio.ts';
import { tellProblems } from '../../store/terminal.ts';
import { refusePaper, writePage } from '../../store/write-out.ts';
import { type Action, asOf, studioOptions, textOption } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const file = textOption(typed, 'html');
  const replace = typed.options.replace === true;
  refusePaper(file, replace);
  const studio = await openStudio(studioOptions(typed));
  const [name] = typed.args;
  const style = { color: terminal.color, width: terminal.width };
  const cases = name === undefined ? await openAllSurveyed(studio) : [await openSurveyed(name, studio)];
  for (const { warnings } of cases) tellProblems(warnings, terminal);
  const compared = cases.filter(({ others }) => others.length > 0);
  if (compared.length === 0) {
    const what =
      name === undefined
        ? 'No quilt has been surveyed by a second helper yet'
        : `${name} has one survey only`;
    terminal.err(
      `${what}. "mendwise survey ${name ?? 'CASE'} --as helper-b" makes another, without showing the first.`,
    );
  }
  const context = contextOf(studio, asOf(typed, terminal));
  const report = helpersReport(compared, studio, context);
  if (typed.options.json === true) {
    terminal.out(JSON.stringify(forScripts(report), null, 2));
    return 0;
  }
  if (compared.length === 0) return 0;
  const page = helpersPage(report, formatterOf(studio));
  if (file !== undefined) await writePage(file, pageHtml(page), replace, terminal);
  if (file === undefined) terminal.out(printPage(page, style));
  return 0;
};

/** Everything known of how helpers agree. Surveys are compared as first made: later looks override both alike. */
const helpersReport = (
  cases: readonly SurveyedCase[],
  studio: Studio,
  context: DecisionContext,
): HelpersReport => {
  const { vocabulary, figures } = studio.knowledge;
  const surveys: Surveyed[] = cases.flatMap(({ case: base, others }) => [
    { case: base.case, helper: base.survey.by ?? FIRST, judged: gradingsIn(base, vocabulary) },
    ...others.map((other) => ({
      case: base.case,
      helper: other.by,
      judged: gradingsIn(asSurveyed(base, other), vocabulary),
    })),
  ]);
  const agreements = agreement(surveys, figures);
  return {
    disagreements: cases.map(({ case: base, others }) =>
      disagreements({ ...base, resurveys: [] }, others, context),
    ),
    agreements,
    drifts: drift(agreements),
    gradings: referenceReports(cases, studio),
    leastJudged: figures.number('experience.least_judged'),
  };
};

/** Every helper who graded a quilt of the reference set, against the grades agreed there. */
const referenceReports = (cases: readonly SurveyedCase[], studio: Studio): GradingReport[] => {
  const { vocabulary, figures } = studio.knowledge;
  const reference = cases.filter(({ case: base }) => base.reference === true);
  const helpers = new Set(reference.flatMap(({ others }) => others.map(({ by }) => by)));
  return [...helpers].sort().flatMap((helper) => {
    const gradings = reference.flatMap(({ case: base, others }) =>
      others
        .filter(({ by }) => by === helper)
        .map((other) => ({
          case: base.case,
          agreed: gradingsIn(base, vocabulary),
          given: gradingsIn(asSurveyed(base, other), vocabulary),
        })),
    );
    return gradingReport(helper, gradings, figures) ?? [];
  });
};

const forScripts = ({ disagreements: all, agreements, drifts, gradings }: HelpersReport) => ({
  schema: 'mendwise/helpers@1',
  quilts: all.map(disagreementsForScripts),
  agreement: agreements.map(({ things: _things, ...rest }) => rest),
  drift: drifts,
  reference: gradings.map(({ missed, ...rest }) => ({
    ...rest,
    missed: missed.map(({ case: of, agreed, given }) => ({
      case: of,
      finding: agreed.finding,
      of: agreed.thing,
      agreed: agreed.value,
      given: given.value,
    })),
  })),
});
