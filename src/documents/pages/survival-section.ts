import { atRisk, type Comparison, type SurvivalGroup } from '../../experience/survival-by.ts';
import { counted, type PageSection, type Piece, pageParagraph, percent, sentenceCase } from '../model.ts';

/** Survival curves of a few groups: picture, table, numbers at risk and, where two can be compared, the log-rank test. */
export const survivalSection = (
  title: string,
  groups: readonly SurvivalGroup[],
  comparison: Comparison | undefined,
  say: (name: string) => string,
): PageSection => {
  if (groups.length === 0) return { title, pieces: [] };
  const until = Math.max(
    1,
    Math.ceil(Math.max(...groups.flatMap(({ lives }) => lives.map(({ time }) => time)))),
  );
  const years = Array.from({ length: until + 1 }, (_, year) => year);
  const steps = groups.flatMap((group) => group.steps.map((step, index) => ({ group, step, index })));
  return {
    title,
    pieces: [
      {
        kind: 'steps',
        caption:
          'Share of quilts that need no repair yet (Kaplan–Meier); ticks mark where a quilt was last seen whole.',
        until,
        curves: groups.map(({ name, steps: own, lives }) => ({
          name: say(name),
          steps: own,
          censored: lives.filter(({ failed }) => !failed).map(({ time }) => time),
        })),
      },
      {
        kind: 'table',
        caption: 'Quilts still whole and in view',
        columns: ['Group', ...years.map((year) => `${year} y`)],
        rows: groups.map((group) => [
          sentenceCase(say(group.name)),
          ...years.map((year) => String(atRisk(group, year))),
        ]),
      },
      ...(steps.length === 0
        ? [pageParagraph('Nothing has come due yet, so the curves are flat.')]
        : [
            {
              kind: 'table',
              caption: 'Each repair that came due, with likelihood-ratio limits (95 %).',
              columns: ['Group', 'Years', 'In view', 'Due', 'Still whole', 'Limits'],
              rows: steps.map(({ group, step, index }) => [
                index === 0 ? sentenceCase(say(group.name)) : '',
                step.time.toFixed(1),
                String(step.atRisk),
                String(step.failures),
                percent(step.survival),
                `${percent(step.limits.low)} to ${percent(step.limits.high)}`,
              ]),
            } satisfies Piece,
          ]),
      ...(comparison === undefined ? [] : compared(comparison, say, groups)),
    ],
  };
};

const compared = (
  { a, b, test, small }: Comparison,
  say: (name: string) => string,
  groups: readonly SurvivalGroup[],
): Piece[] => {
  const size = (name: string): string =>
    counted(groups.find((group) => group.name === name)?.lives.length ?? 0, 'quilt');
  return [
    pageParagraph(
      `Log-rank test, “${say(a)}” (${size(a)}) against “${say(b)}” (${size(b)}): chi-squared ${test.chiSquared.toFixed(2)}, p = ${test.pValue < 0.001 ? 'below 0.001' : test.pValue.toFixed(3)}.`,
    ),
    pageParagraph(
      `${small ? 'These groups are too small for the test to show anything but a very large difference. ' : ''}Quilts were not dealt out to treatments by lot: weaker cloth gets other treatments and other uses, so a difference between groups need not come from the treatment.`,
    ),
  ];
};
