import type { VNode } from 'preact';
import type { Piecework, Unit } from '../../piecework/model.ts';
import { rowLetters } from '../../piecework/positions.ts';
import { counted } from '../phrases.ts';
import { layOf, lineOf, middleOf, pointsOf, QuiltFrame } from './frame.tsx';
import { at, FAINT, Hatches, hatchFill, INK, Letter, Swatch } from './hatch.tsx';
import type { Look, Picture } from './picture.ts';

export interface UnitMap<Kind extends string> {
  readonly id: string;
  readonly title: string;
  readonly piecework: Piecework;
  /** What stands at a position; positions it does not name stand as `rest`. */
  readonly kinds: ReadonlyMap<string, Kind>;
  /** What stands there besides, as a further letter; a unit still counts once, as its kind. */
  readonly besides?: ReadonlyMap<string, readonly Kind[]>;
  readonly rest: Kind;
  readonly looks: Readonly<Record<Kind, Look>>;
  /** Singular and plural of what is mapped. */
  readonly unit: readonly [string, string];
  /** Joins drawn as open, by the names of their two units. */
  readonly open: readonly { readonly a: string; readonly b: string }[];
  /** What its counts are of, where it shows every unit. */
  readonly of?: string;
}

/** The quilt unit by unit, as found or as planned: a hatch and a letter for each kind. */
export function unitMap<Kind extends string>(map: UnitMap<Kind>): Picture {
  const { id, title, piecework, looks, open } = map;
  const lay = layOf(piecework);
  const kindOf = (unit: Unit): Kind => map.kinds.get(unit.at) ?? map.rest;
  const counts = new Map<Kind, number>();
  for (const unit of piecework.units.filter((each) => each.part === 'whole' || map.kinds.has(each.at)))
    counts.set(kindOf(unit), (counts.get(kindOf(unit)) ?? 0) + 1);
  const besidesAt = (unit: Unit): readonly Kind[] => map.besides?.get(unit.at) ?? [];
  const lettersOf = (unit: Unit): string =>
    [kindOf(unit), ...besidesAt(unit)].map((kind) => looks[kind].letter).join('');
  const further = furtherOf(map);
  const present = (Object.keys(looks) as Kind[]).filter((kind) => counts.has(kind));
  const letterSize = at(Math.min(26, lay.unit * (piecework.kind === 'on point' ? 0.34 : 0.56)));
  const seams = openSeams(piecework, open);
  const words = present.map((kind) => `${looks[kind].words}: ${counted(counts.get(kind) ?? 0, ...map.unit)}`);
  const seamWords = seams.length === 0 ? [] : [`open seams: ${seams.length}`];
  const description = `${[...words, ...further.map((each) => each.words), ...seamWords].join('; ')}. Rows are lettered from the top, columns numbered from the left.`;
  const svg: VNode = (
    <QuiltFrame id={id} title={title} description={description} piecework={piecework} lay={lay}>
      <Hatches picture={id} used={present.map((kind) => looks[kind].hatch)} />
      {piecework.units.map((unit) => (
        <polygon
          key={unit.at}
          points={pointsOf(unit, lay)}
          fill={hatchFill(id, looks[kindOf(unit)].hatch)}
          stroke={FAINT}
          stroke-width="0.8"
        />
      ))}
      {piecework.units.map((unit) => {
        const letters = lettersOf(unit);
        if (letters === '') return null;
        const middle = middleOf(unit, lay);
        // Two letters take the room of one.
        const size = letters.length === 1 ? letterSize : at((1.4 * letterSize) / letters.length);
        return (
          <Letter key={unit.at} x={middle.x} y={middle.y} size={size}>
            {letters}
          </Letter>
        );
      })}
      {seams.map((seam) => (
        <path
          key={`${seam.a}${seam.b}`}
          d={lineOf(seam, lay)}
          stroke={INK}
          stroke-width="5"
          stroke-linecap="butt"
        />
      ))}
    </QuiltFrame>
  );
  return {
    id,
    title,
    description,
    svg,
    key: [
      ...present.map((kind, index) => ({
        swatch: <Swatch picture={id} hatch={looks[kind].hatch} letter={looks[kind].letter} />,
        mark: looks[kind].letter === '' ? '.' : looks[kind].letter,
        words: words[index] ?? '',
      })),
      ...further.map(({ letter, words: said }) => ({
        swatch: <Swatch picture={id} hatch="plain" letter={letter} />,
        mark: letter,
        words: said,
      })),
      ...(seams.length === 0 ? [] : [{ swatch: <SeamSwatch />, mark: '=', words: seamWords.join('') }]),
    ],
    ...(map.of === undefined ? {} : { tally: { of: map.of, counts: Object.fromEntries(counts) } }),
    plain: plainMap(piecework, (unit) => lettersOf(unit) || '.'),
  };
}

/** What units bear besides what they count as, each kind with its number and its places. */
function furtherOf<Kind extends string>({ besides = new Map(), looks, unit }: UnitMap<Kind>) {
  return (Object.keys(looks) as Kind[]).flatMap((kind) => {
    const places = [...besides].flatMap(([at, kinds]) => (kinds.includes(kind) ? [at] : []));
    if (places.length === 0) return [];
    const { letter, words } = looks[kind];
    return [{ letter, words: `${words} besides: ${counted(places.length, ...unit)} (${places.join(', ')})` }];
  });
}

const SeamSwatch = (): VNode => (
  <svg class="swatch" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
    <path d="M2 12h20" stroke={INK} stroke-width="5" />
  </svg>
);

function openSeams(piecework: Piecework, open: UnitMap<string>['open']) {
  const wanted = new Set(open.flatMap(({ a, b }) => [`${a} ${b}`, `${b} ${a}`]));
  return piecework.joins.filter(({ a, b }) => wanted.has(`${a} ${b}`));
}

/** One line a row, whole units only, with the row's letter before it. */
function plainMap(piecework: Piecework, letterOf: (unit: Unit) => string): string[] {
  const rows = new Map<number, string[]>();
  for (const unit of piecework.units.filter(({ part }) => part === 'whole'))
    rows.set(unit.row, [...(rows.get(unit.row) ?? []), letterOf(unit)]);
  // Two letters to a unit need a wider column.
  const wide = Math.max(1, ...[...rows.values()].flat().map((letters) => letters.length));
  const inset = (row: number): string =>
    piecework.kind === 'on point' && piecework.columns > 1 && row % 2 === 1 ? ' ' : '';
  return [...rows]
    .sort(([a], [b]) => a - b)
    .map(
      ([row, letters]) =>
        `${rowLetters(row).padEnd(2)} ${inset(row)}${letters
          .map((each) => each.padEnd(wide))
          .join(' ')
          .trimEnd()}`,
    );
}
