import type { VNode } from 'preact';
import type { SurveyedJoins } from '../../findings/surveyed.ts';
import { whole } from '../../quantities/rounding.ts';
import { counted } from '../phrases.ts';
import { FAINT, type Hatch, Hatches, hatchFill, INK, Letter, Swatch } from './hatch.tsx';
import type { Picture } from './picture.ts';

/** More marks than this are no longer counted at a glance: then each stands for several. */
const MOST_MARKS = 200;
const ACROSS = 25;
const CELL = 25;

interface Part {
  readonly letter: string;
  readonly hatch: Hatch;
  readonly words: string;
  readonly count: number;
}

/** Seams looked at, one mark each: closed, or open with what gave way. Undefined where none were looked at. */
export function seamEvidence(id: string, title: string, joins: SurveyedJoins): Picture | undefined {
  const { inspected, open } = joins;
  if (inspected === undefined || open === undefined || inspected === 0) return undefined;
  const [thread, cloth, allowance] = [joins.thread ?? 0, joins.cloth ?? 0, joins.allowance ?? 0];
  const parts: Part[] = [
    { letter: 'T', hatch: 'rising', words: 'open, the thread gave way', count: thread },
    { letter: 'C', hatch: 'net', words: 'open, the cloth gave way', count: cloth },
    { letter: 'A', hatch: 'upright', words: 'open, the edge of the seam is gone', count: allowance },
    {
      letter: '?',
      hatch: 'dots',
      words: 'open, cause not known',
      count: Math.max(0, open - thread - cloth - allowance),
    },
    { letter: '', hatch: 'plain', words: 'closed', count: Math.max(0, inspected - open) },
  ].filter(({ count }) => count > 0) as Part[];
  const each = Math.ceil(inspected / MOST_MARKS);
  const marks = parts.flatMap((part) =>
    Array.from({ length: Math.max(1, Math.round(part.count / each)) }, () => part),
  );
  const rows = Math.ceil(marks.length / ACROSS);
  const description = `Of ${counted(inspected, 'seam')} looked at: ${parts.map(({ words, count }) => `${words}: ${whole(count)}`).join('; ')}.`;
  const svg: VNode = (
    <svg
      class="chart"
      role="img"
      viewBox={`0 0 ${ACROSS * CELL + 4} ${rows * CELL + 4}`}
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{description}</desc>
      <Hatches picture={id} used={parts.map(({ hatch }) => hatch)} />
      {marks.map((part, index) => {
        const [x, y] = [(index % ACROSS) * CELL + 3, Math.floor(index / ACROSS) * CELL + 3];
        return (
          <g key={`${part.letter}${x} ${y}`}>
            <rect
              x={x}
              y={y}
              width="21"
              height="21"
              fill={hatchFill(id, part.hatch)}
              stroke={part.letter === '' ? FAINT : INK}
            />
            {part.letter === '' ? null : (
              <Letter x={x + 10.5} y={y + 10.5} size={13}>
                {part.letter}
              </Letter>
            )}
          </g>
        );
      })}
    </svg>
  );
  return {
    id,
    title,
    description,
    svg,
    key: [
      ...parts.map(({ letter, hatch, words, count }) => ({
        swatch: <Swatch picture={id} hatch={hatch} letter={letter} />,
        mark: letter === '' ? '.' : letter,
        words: `${words}: ${whole(count)}`,
      })),
      ...(each > 1 ? [{ swatch: <i />, mark: '', words: `one mark stands for ${each} seams` }] : []),
    ],
    plain: [],
  };
}
