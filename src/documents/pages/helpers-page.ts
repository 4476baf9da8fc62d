import { showsHazard } from '../../casebook/hazards.ts';
import { sayRecommendation } from '../../decision/words.ts';
import type { Drift, FindingAgreement, GradingReport } from '../../experience/agreement.ts';
import { byWeight, type Disagreement, type Disagreements } from '../../experience/disagreement.ts';
import {
  anchorsOf,
  type Formatter,
  howToLook,
  sayGrading,
  sayPairs,
  topicName,
} from '../../experience/format.ts';
import {
  counted,
  list,
  listed,
  type Page,
  type PageSection,
  type Piece,
  pageParagraph,
  percent,
  sentenceCase,
} from '../model.ts';

/** Everything the page on helpers is made from. */
export interface HelpersReport {
  readonly disagreements: readonly Disagreements[];
  readonly agreements: readonly FindingAgreement[];
  readonly drifts: readonly Drift[];
  readonly gradings: readonly GradingReport[];
  readonly leastJudged: number;
}

/** What to talk about first, how far helpers agree, who grades harsher, and the reference set. */
export const helpersPage = (report: HelpersReport, formatter: Formatter): Page => {
  const all = byWeight(report.disagreements.flatMap((one) => one.all));
  const matter = all.filter((one) => one.swings.length > 0 && !isOnHazard(one));
  const helpers = new Set(report.disagreements.flatMap(({ views }) => views.map(({ helper }) => helper)));
  return {
    title: 'Helpers side by side',
    lead: `${listed([...helpers].sort())}, on ${counted(report.disagreements.length, 'quilt')} surveyed more than once.`,
    sections: [
      answers(report),
      ...agenda(matter, report, formatter),
      stopped(all, formatter),
      harmless(all, formatter),
      agreementTable(report),
      drifts(report.drifts),
      ...references(report.gradings, formatter),
    ].filter((section) => section.pieces.length > 0),
  };
};

const answers = ({ disagreements }: HelpersReport): PageSection => ({
  title: 'What each helper’s survey leads to',
  pieces: [
    {
      kind: 'table',
      caption:
        'The decision run on each helper’s own findings; what a helper left out is taken from the first survey.',
      columns: ['Quilt', 'Helper', 'Recommendation'],
      rows: disagreements.flatMap(({ case: of, views }) =>
        views.map(({ helper, verdict }, index) => [
          index === 0 ? of : '',
          helper,
          sayRecommendation(verdict),
        ]),
      ),
    },
  ],
});

const agenda = (
  matter: readonly Disagreement[],
  { disagreements }: HelpersReport,
  formatter: Formatter,
): PageSection[] => {
  const together = disagreements
    .filter(({ onlyTogether }) => onlyTogether)
    .map(
      ({ case: of }) =>
        `${of}: the helpers’ answers differ, and no single finding accounts for it; go through the whole list below together.`,
    );
  const lead =
    matter.length === 0
      ? 'No single disagreement changes what we would do with any of these quilts.'
      : 'Each of these changes the recommendation. Look at them together, with the quilt or its photographs on the table, before anything else.';
  return [
    {
      title: 'For the next training hour',
      pieces: [pageParagraph(lead), ...(together.length > 0 ? [list(together)] : [])],
    },
    ...matter.map(
      (one, index): PageSection => ({
        title: `${index + 1}. ${heading(one)}`,
        under: true,
        pieces: item(one, formatter),
      }),
    ),
  ];
};

const heading = (one: Disagreement): string => `${sentenceCase(topicName(one))} (${one.case})`;

const item = (one: Disagreement, formatter: Formatter): Piece[] => {
  const { swings, tried, units } = one;
  const ends = new Map(
    swings.map((swing) => [
      `${swing.helper}’s survey leads to “${sayRecommendation(swing.from)}”, and with ${swing.with}’s answer here to “${sayRecommendation(swing.to)}”.`,
      swing,
    ]),
  );
  const how = howToLook(one);
  return [
    list(sayPairs(one, formatter)),
    pageParagraph(`Changes the answer in ${swings.length} of ${tried} mixtures.`),
    list([...ends.keys()]),
    ...(units.length > 0 ? [pageParagraph(`By themselves these units change it: ${listed(units)}.`)] : []),
    ...signs(one, formatter),
    ...(how === undefined ? [] : [pageParagraph(`How to look: ${how}`)]),
  ];
};

const signs = (one: Disagreement, formatter: Formatter): Piece[] => {
  const anchors = anchorsOf(one, formatter).filter((each) => each.signs.length > 0);
  if (anchors.length === 0) return [];
  const ways = [...new Set(anchors.flatMap((each) => each.signs.map(({ how }) => how)))];
  return [
    {
      kind: 'table',
      caption: 'What to hold the cloth against',
      columns: ['Sign', ...anchors.map(({ answer }) => answer)],
      rows: ways.map((way) => [
        way,
        ...anchors.map((each) => each.signs.find(({ how }) => how === way)?.sign ?? ''),
      ]),
    },
  ];
};

const isOnHazard = ({ pairs }: Disagreement): boolean =>
  pairs.some(({ topic }) =>
    topic.differences.some(({ finding, a, b }) =>
      [a, b].some(({ value }) => value !== undefined && showsHazard(finding, value)),
    ),
  );

/** A hazard that one survey notes stops the quilt for all: no joint look settles it. */
const stopped = (all: readonly Disagreement[], formatter: Formatter): PageSection => {
  const hazards = all.filter(isOnHazard);
  const said = hazards.map((one) => `${heading(one)}: ${sayPairs(one, formatter).join('. ')}`);
  return {
    title: 'Hazards that not everybody noted',
    pieces:
      hazards.length === 0
        ? []
        : [
            pageParagraph(
              'One note is enough to stop a quilt. Do not open it to see who is right: "mendwise decide" says what to do now, and "mendwise treated" lifts the stop once it was dealt with.',
            ),
            list(said),
          ],
  };
};

const harmless = (all: readonly Disagreement[], formatter: Formatter): PageSection => {
  const rest = all.filter((one) => one.swings.length === 0 && !isOnHazard(one));
  return {
    title: 'Other disagreements, which change nothing here',
    pieces:
      rest.length === 0
        ? []
        : [list(rest.map((one) => `${heading(one)}: ${sayPairs(one, formatter).join('. ')}`))],
  };
};

const interval = ({ low, high }: { low: number; high: number }, say: (value: number) => string): string =>
  `${say(low)} to ${say(high)}`;

/** A share beside a target needs the tenth, or 97.8 % would read as having met 98 %. */
const tenths = (value: number): string => `${(100 * value).toFixed(1)} %`;

const two = (value: number): string => value.toFixed(2);

const agreementTable = ({ agreements, leastJudged }: HelpersReport): PageSection => {
  const differing = agreements.filter(({ n, same }) => same < n);
  const alike = agreements.filter(({ n, same }) => same === n);
  return {
    title: 'How far helpers agree',
    pieces:
      agreements.length === 0
        ? []
        : [
            {
              kind: 'table',
              caption:
                'Things judged by two helpers or more. Shares with Wilson intervals, coefficients with bootstrap intervals (1,000 draws over the things judged, fixed seed), all 95 %.',
              columns: ['Finding', 'Judged', 'Same', 'Within one step', 'Beyond chance'],
              rows: differing.map((one) => [
                sentenceCase(one.label),
                String(one.n),
                share(one.same, one.n, one.sameInterval, leastJudged),
                one.withinOne === undefined || one.withinOneInterval === undefined
                  ? '–'
                  : share(one.withinOne, one.n, one.withinOneInterval, leastJudged),
                beyondChance(one, leastJudged),
              ]),
            },
            pageParagraph(
              `Alpha and kappa are 1 for perfect agreement and 0 for what chance gives. They are shown from ${leastJudged} things judged twice on; with fewer, only the counts say anything.`,
            ),
            ...(alike.length === 0
              ? []
              : [
                  pageParagraph(
                    `Everybody gave the same answer every time on: ${listed(alike.map(({ label, n }) => `${label} (${n})`))}. The number is how many were judged twice.`,
                  ),
                ]),
          ],
  };
};

const share = (count: number, n: number, limits: { low: number; high: number }, least: number): string =>
  n < least ? `${count} of ${n}` : `${percent(count / n)} (${interval(limits, percent)})`;

const beyondChance = ({ n, coefficients }: FindingAgreement, least: number): string => {
  if (n < least) return 'too few to say';
  return coefficients
    .map(({ name, value, interval: limits }) => {
      const short = name.replace('Krippendorff’s ', '').replace(/^C/, 'C');
      if (value === undefined) return `${short}: nothing to tell, everybody gave one answer`;
      return `${short} ${two(value)}${limits === undefined ? '' : ` (${interval(limits, two)})`}`;
    })
    .join('; ');
};

const VERDICTS: Readonly<Record<Drift['verdict'], string>> = {
  harsher: 'grades harsher than the others',
  softer: 'grades softer than the others',
  'no drift shown': 'no drift shown',
};

const drifts = (all: readonly Drift[]): PageSection => ({
  title: 'Who grades harsher, who softer',
  pieces:
    all.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption:
              'Grades and ordered choices against the mean of the others. Drift is called only where the exact 95 % interval for the share of harsher answers leaves one half out.',
            columns: ['Helper', 'Compared', 'Harsher', 'Softer', 'Mean steps', 'Reading'],
            rows: all.map((one) => [
              one.helper,
              String(one.n),
              String(one.harsher),
              String(one.softer),
              `${one.meanSteps > 0 ? '+' : one.meanSteps < 0 ? '−' : ''}${Math.abs(one.meanSteps).toFixed(2)}`,
              one.n === 0 ? 'nothing to compare' : VERDICTS[one.verdict],
            ]),
          },
        ],
});

const references = (gradings: readonly GradingReport[], formatter: Formatter): PageSection[] =>
  gradings.map(
    (one): PageSection => ({
      title: `${one.helper} against the reference set`,
      pieces: [
        pageParagraph(
          `${one.same} of ${one.graded} grades the same (${tenths(one.same / one.graded)}, 95 % interval ${interval(one.sameInterval, percent)}; target ${percent(one.target.same)}), ${one.withinOne} within one step (${tenths(one.withinOne / one.graded)}, ${interval(one.withinOneInterval, percent)}; target ${percent(one.target.withinOne)}). ${one.met ? 'Both targets are met.' : 'Below target: read the swatch card again and grade these once more.'}`,
        ),
        ...(one.missed.length === 0
          ? []
          : [
              list(
                one.missed.map(
                  ({ case: of, agreed, given }) =>
                    `${sentenceCase(agreed.label)}${agreed.thing === '' ? '' : ` of ${agreed.thing}`} (${of}): agreed ${sayGrading(agreed, formatter)}, given ${sayGrading(given, formatter)}`,
                ),
              ),
            ]),
      ],
    }),
  );
