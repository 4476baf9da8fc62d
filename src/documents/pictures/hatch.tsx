import type { VNode } from 'preact';

/** The two inks of every picture. Meaning lies in pattern and letter; tone only helps. Both pass AA on paper and cloth. */
export const INK = '#1f2a44';
export const PAPER = '#ffffff';

/** A light tone of cloth, on which ink keeps 11:1. */
export const CLOTH = '#ecebe4';

/** Ways to fill a shape that stay apart from each other in black and white. */
const DRAWINGS = {
  plain: { tone: PAPER, draw: null },
  dots: { tone: PAPER, draw: <circle cx="4" cy="4" r="1.1" fill={INK} /> },
  rings: { tone: PAPER, draw: <circle cx="4" cy="4" r="2.4" fill="none" stroke={INK} stroke-width="1" /> },
  rising: { tone: PAPER, draw: <path d="M-2 2 2-2M0 8 8 0M6 10l4-4" stroke={INK} stroke-width="1.2" /> },
  falling: { tone: PAPER, draw: <path d="M-2 6l4 4M0 0l8 8M6-2l4 4" stroke={INK} stroke-width="1.2" /> },
  level: { tone: PAPER, draw: <path d="M0 4h8" stroke={INK} stroke-width="1.2" /> },
  upright: { tone: PAPER, draw: <path d="M4 0v8" stroke={INK} stroke-width="1.2" /> },
  dashes: { tone: PAPER, draw: <path d="M1 2h3M5 6h3" stroke={INK} stroke-width="1.2" /> },
  waves: { tone: PAPER, draw: <path d="M0 4q2-4 4 0t4 0" fill="none" stroke={INK} stroke-width="1.1" /> },
  pluses: { tone: PAPER, draw: <path d="M4 2v4M2 4h4" stroke={INK} stroke-width="1.1" /> },
  net: { tone: CLOTH, draw: <path d="M0 0l8 8M8 0 0 8" stroke={INK} stroke-width="1.5" /> },
  grid: { tone: CLOTH, draw: <path d="M0 4h8M4 0v8" stroke={INK} stroke-width="1.3" /> },
  shade: { tone: CLOTH, draw: null },
} as const;
export type Hatch = keyof typeof DRAWINGS;

const idOf = (picture: string, hatch: Hatch): string => `${picture}-${hatch}`;

/** What to write in `fill`. */
export const hatchFill = (picture: string, hatch: Hatch): string => `url(#${idOf(picture, hatch)})`;

/** Definitions of the hatches a picture uses, each once. */
export function Hatches({ picture, used }: { picture: string; used: readonly Hatch[] }): VNode {
  return (
    <defs>
      {[...new Set(used)].map((hatch) => (
        <pattern key={hatch} id={idOf(picture, hatch)} width="8" height="8" patternUnits="userSpaceOnUse">
          <rect width="8" height="8" fill={DRAWINGS[hatch].tone} />
          {DRAWINGS[hatch].draw}
        </pattern>
      ))}
    </defs>
  );
}

/** A letter that stays readable on any hatch: it brings its own paper. */
export function Letter(props: { x: number; y: number; size: number; children: string }): VNode {
  return (
    <text
      x={props.x}
      y={props.y}
      font-size={props.size}
      font-weight="700"
      text-anchor="middle"
      dominant-baseline="central"
      fill={INK}
      stroke={PAPER}
      stroke-width={Math.max(2.5, props.size / 4)}
      stroke-linejoin="round"
      paint-order="stroke"
    >
      {props.children}
    </text>
  );
}

/** A small sample for a key, drawn with the hatches of its picture. */
export function Swatch({ picture, hatch, letter }: { picture: string; hatch: Hatch; letter: string }): VNode {
  return (
    <svg class="swatch" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
      <rect x="1" y="1" width="22" height="22" fill={hatchFill(picture, hatch)} stroke={INK} />
      {letter === '' ? null : (
        <Letter x={12} y={12} size={13}>
          {letter}
        </Letter>
      )}
    </svg>
  );
}

/** For edges that only divide: 3:1 on paper. */
export const FAINT = '#767b88';

/** To a tenth: enough for a drawing, and the same bytes everywhere. */
export const at = (value: number): number => Math.round(value * 10) / 10;
