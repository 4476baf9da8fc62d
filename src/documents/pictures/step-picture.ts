import type { Piece } from '../model.ts';

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
