import type { QuiltCase } from '../../casebook/model.ts';
import type { UnitState } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { whole } from '../../quantities/rounding.ts';
import type { CaseValue, Variable } from './variable.ts';

const counted = (value: CaseValue): number =>
  typeof value === 'number' ? Math.max(0, Math.round(value)) : 0;

/** What sets one count apart from another. `most` is as much as there can be. */
interface Counted extends Pick<Variable, 'id' | 'label' | 'how' | 'likely' | 'most'> {
  readonly current: number | undefined;
  readonly set: (quiltCase: QuiltCase, count: number) => QuiltCase;
}

const counter = ({ id, label, how, current, most: max, likely, set }: Counted): Variable => ({
  id,
  label,
  who: 're-check',
  told: false,
  current,
  cost: 3,
  how,
  likely,
  turns: true,
  others: [],
  scale: {
    min: Math.floor((current ?? 0) / 2),
    max: current === undefined ? max : Math.min(max, current * 2 + 2),
    step: 1,
    marks: [],
  },
  most: max,
  say: whole,
  set: (quiltCase, value) => set(quiltCase, Math.min(max, counted(value))),
});

/** Variables for what is counted: open seams, seams where cloth tore, and lost units. */
export function countVariables(quilt: SurveyedQuilt, vocabulary: Vocabulary, figures: Figures): Variable[] {
  const { joins } = quilt;
  const looked = joins.inspected ?? joins.total;
  const likelyShares = (id: string, of: number): Variable['likely'] => {
    const { low, likely, high } = figures.range(id);
    return [low, likely, high].map((share) => ({ value: Math.round(share * of), weight: 1 / 3 }));
  };
  const lost = lostUnits(quilt);
  return [
    ...(looked > 0
      ? [
          counter({
            id: 'joins.open',
            label: 'number of open seams',
            how: how(vocabulary, 'join_failure'),
            current: joins.open,
            most: looked,
            likely: likelyShares('readings.seams_open', looked),
            set: (c, count) => withJoins(c, count, joins.cloth ?? 0, looked),
          }),
        ]
      : []),
    ...(joins.open !== undefined && joins.open > 0
      ? [
          counter({
            id: 'joins.cloth',
            label: 'number of open seams where the cloth tore',
            how: how(vocabulary, 'cloth_share_of_failures'),
            current: joins.cloth,
            most: joins.open,
            likely: EVEN(joins.open),
            set: (c, count) => withJoins(c, joins.open ?? 0, count, looked),
          }),
        ]
      : []),
    counter({
      id: 'lost',
      label: quilt.counting === 'patches' ? 'number of lost patches' : 'number of lost units',
      how: how(vocabulary, 'loss'),
      current: lost,
      most: quilt.total,
      likely: likelyShares('readings.units_lost', quilt.total),
      set: (c, count) => withLost(c, quilt, count),
    }),
  ];
}

/** Where the cause of open seams was not noted: none of them, half, or all by torn cloth. */
const EVEN = (open: number): Variable['likely'] =>
  [0, Math.round(open / 2), open].map((value) => ({ value, weight: 1 / 3 }));

const how = (vocabulary: Vocabulary, id: string): string => vocabulary.findings.get(id)?.how ?? '';

/** Unknown where units were not seen, or there is neither map nor count. */
function lostUnits(quilt: SurveyedQuilt): number | undefined {
  if (quilt.groups.some(({ state, count }) => state === 'unseen' && count > 0)) return undefined;
  return quilt.groups.filter(({ state }) => state === 'lost').reduce((sum, { count }) => sum + count, 0);
}

function withJoins(quiltCase: QuiltCase, open: number, cloth: number, inspected: number): QuiltCase {
  const torn = Math.min(open, cloth);
  return {
    ...quiltCase,
    survey: {
      ...quiltCase.survey,
      joins: { inspected, open, cloth: torn, thread: open - torn, allowance: 0 },
    },
  };
}

/** As many lost units as wanted: sound ones are taken, or lost ones found whole, in reading order. */
function withLost(quiltCase: QuiltCase, quilt: SurveyedQuilt, count: number): QuiltCase {
  const { units, counts } = quiltCase.survey;
  if (units === undefined) {
    const { lost: _lost, ...rest } = counts ?? { of: quilt.total };
    return { ...quiltCase, survey: { ...quiltCase.survey, counts: { ...rest, lost: count } } };
  }
  let toChange = count - units.flat().filter((state) => state === 'lost').length;
  const change = (state: UnitState): UnitState => {
    if (toChange > 0 && (state === 'sound' || state === 'unseen')) {
      toChange -= 1;
      return 'lost';
    }
    if (toChange < 0 && state === 'lost') {
      toChange += 1;
      return 'sound';
    }
    return state === 'unseen' ? 'sound' : state;
  };
  return { ...quiltCase, survey: { ...quiltCase.survey, units: units.map((row) => row.map(change)) } };
}
