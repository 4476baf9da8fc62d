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

type Steps = Extract<Piece, { kind: 'steps' }>;

const WIDTH = 640;
const HEIGHT = 300;
const EDGE = { left: 52, right: 150, top: 14, bottom: 44 };

/** Lines told apart by their dashes, so that print and colour-blind eyes do as well. */
const DASHES = ['', '7 4', '2 3', '10 3 2 3', '14 4'];

/** Survival curves as steps, with a tick where a quilt was last seen whole. */
export const stepPicture = ({ caption, curves, until }: Steps): string => {
  const x = (years: number): number => EDGE.left + (years / until) * (WIDTH - EDGE.left - EDGE.right);
  const y = (share: number): number => EDGE.top + (1 - share) * (HEIGHT - EDGE.top - EDGE.bottom);
  const at = (value: number): string => String(Math.round(value * 10) / 10);
  const ticks = yearTicks(until);
  const parts = [
    ...[0, 0.25, 0.5, 0.75, 1].map(
      (share) =>
        `<line x1="${EDGE.left}" x2="${at(x(until))}" y1="${at(y(share))}" y2="${at(y(share))}" stroke="#c9c2b6" stroke-width="1"/><text x="${EDGE.left - 8}" y="${at(y(share) + 4)}" text-anchor="end">${Math.round(100 * share)} %</text>`,
    ),
    ...ticks.map(
      (years) =>
        `<text x="${at(x(years))}" y="${HEIGHT - EDGE.bottom + 18}" text-anchor="middle">${years}</text>`,
    ),
    `<text x="${at((x(0) + x(until)) / 2)}" y="${HEIGHT - 6}" text-anchor="middle">years since the work was done</text>`,
    ...curves.map(({ name, steps, censored }, index) => {
      let share = 1;
      let path = `M${at(x(0))} ${at(y(1))}`;
      for (const { time, survival } of steps) {
        path += `H${at(x(Math.min(time, until)))}V${at(y(survival))}`;
        share = survival;
      }
      path += `H${at(x(until))}`;
      const marks = censored
        .filter((time) => time <= until)
        .map((time) => {
          const level = steps.filter((step) => step.time <= time).at(-1)?.survival ?? 1;
          return `M${at(x(time))} ${at(y(level) - 4)}v8`;
        });
      const dash = DASHES[index % DASHES.length] ?? '';
      return `<path d="${path}" fill="none" stroke="#1d1a16" stroke-width="2"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}/><path d="${marks.join('')}" stroke="#1d1a16" stroke-width="1"/><text x="${at(x(until) + 8)}" y="${at(y(share) + 4 + labelShift(curves, index, share))}">${escaped(name)}</text>`;
    }),
  ];
  return `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-label="${escaped(caption)}" font-family="Georgia, serif" font-size="13" fill="#1d1a16">${parts.join('')}</svg>`;
};

/** Names of curves that end at one height stand below each other. */
const labelShift = (curves: Steps['curves'], index: number, share: number): number => {
  const close = curves
    .slice(0, index)
    .filter(({ steps }) => Math.abs((steps.at(-1)?.survival ?? 1) - share) < 0.06).length;
  return close * 15;
};

const yearTicks = (until: number): number[] => {
  const step = until <= 3 ? 0.5 : until <= 8 ? 1 : until <= 20 ? 2 : 5;
  return Array.from({ length: Math.floor(until / step) + 1 }, (_, index) => index * step);
};

/** Text as HTML shows it, whatever signs it holds. */
export const escaped = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
