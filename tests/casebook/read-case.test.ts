import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { printProblem } from '../../src/problems/print.ts';
import { changed, ORCHARD, readOrchard, threeFindings } from './reading.ts';
import { SECOND_LOOK_SLIPS } from './second-looks.ts';
import { SLIPS as SLIPS_OF_THE_PEN, type Slip } from './slips.ts';

const SLIPS: readonly Slip[] = [...SLIPS_OF_THE_PEN, ...SECOND_LOOK_SLIPS];

const FILE = 'cases/orchard-fourpatch.yaml';

describe('a sound case', () => {
  const { case: read, problems } = readOrchard();

  it('reads without a word', () => {
    expect(problems).toEqual([]);
    expect(read?.case).toBe('orchard-fourpatch');
  });

  it('has lengths in inches, weights in pounds, shares as fractions', () => {
    // 1 in = 2.54 cm and 16 oz = 1 lb exactly (international yard and pound agreement, 1959).
    expect(read?.quilt.size.width).toBe(60.5);
    expect(read?.quilt.size.height).toBeCloseTo(60, 10);
    expect(read?.quilt.layout?.finished).toEqual({ width: 8, height: 9.5 });
    expect(read?.quilt.layout?.sashing).toBe(2);
    expect(read?.quilt.weight).toBe(4.5);
    expect(read?.quilt.batting?.migrated).toBe(0.1);
    expect(read?.quilt.joining?.missing).toBe(0.25);
  });

  it('has yes and no as answers, and nothing where nobody knows', () => {
    expect(read?.client.hung).toBe(false);
    expect(read?.client.owners_agree).toBe(true);
    expect(read?.history?.[1]).toEqual({ use: 'storage', years: 30 });
    expect(read?.survey.findings).toEqual({ mould_area: 0, live_pests: false });
  });

  it('has the maps row by row, top first', () => {
    expect(read?.survey.units?.map((row) => row.length)).toEqual([6, 6, 6, 6, 6]);
    expect(read?.survey.units?.[1]).toEqual(['sound', 'worn', 'sound', 'lost', 'sound', 'sound']);
    expect(read?.survey.units?.[4]?.[5]).toBe('repaired');
    expect(read?.survey.family_map?.[1]?.join('')).toBe('BABABA');
  });

  it('counts open joins from the list of them', () => {
    expect(read?.survey.joins).toMatchObject({ inspected: 40, open: 3, thread: 2, cloth: 1, allowance: 0 });
    expect(read?.survey.joins?.open_at?.[1]).toEqual({ between: ['B2', 'C2'], cause: 'cloth' });
  });

  it('keeps what it has no say in', () => {
    expect(read?.log).toEqual([{ on: '2026-04-12', hours: 2.5, operation: 'taking out the old joining' }]);
    expect(read?.decisions?.[0]?.because).toBe('asked for a soft spread');
    expect(read?.reference).toBe(false);
  });

  it('reads the same with Windows line ends and a byte-order mark', () => {
    expect(readOrchard(`\uFEFF${ORCHARD.replaceAll('\n', '\r\n')}`).case).toEqual(read);
  });

  it('reads yes and no of YAML 1.1 alike', () => {
    const older = ORCHARD.replaceAll(/: yes\b/g, ': true').replaceAll(/: no\b/g, ': False');
    expect(readOrchard(older).case).toEqual(read);
  });

  it('needs no more than four lines', () => {
    const text =
      'mendwise: 1\ncase: bare\nquilt: { size: { width: 60 in, height: 70 in } }\nsurvey: { seen: photos }\n';
    expect(readCase('bare.yaml', text, threeFindings)).toMatchObject({
      case: { client: {}, resurveys: [], photos: [], survey: { seen: 'photos', findings: {} } },
      problems: [],
    });
  });

  it('reads what did the damage, place by place, by number, or for all of it', () => {
    const told = [
      '{ places: [b4, E5], why: accident }',
      '{ places: ["a1|a2"], why: wear }',
      '{ places: units, count: 1, why: unknown }',
      '{ places: joins }',
    ];
    const text = changed('  findings:\n    mould', `  causes: [${told.join(', ')}]\n  findings:\n    mould`);
    expect(readOrchard(text).problems).toEqual([
      expect.objectContaining({ what: 'E5 is sound on the map, yet a cause of loss is given for it' }),
    ]);
    expect(readOrchard(text.replace(', E5]', ', C5]')).case?.survey.causes).toEqual([
      { places: ['B4', 'C5'], why: 'accident' },
      { places: ['A1|A2'], why: 'wear' },
      { places: 'units', count: 1 },
      { places: 'joins' },
    ]);
  });

  it('tells an expected treatment of nothing from none expected', () => {
    const text = changed('treatment: tie\n', 'treatment: null\n');
    expect(readOrchard(text).case?.expect?.treatment).toBeNull();
    expect(readOrchard(changed('  treatment: tie\n', '')).case?.expect).not.toHaveProperty('treatment');
  });
});

describe('slips, and what is said of them', () => {
  it.each(SLIPS)('$name', ({ from, to, said }) => {
    const { problems, case: read } = readOrchard(changed(from, to));
    const lines = problems.map((problem) => {
      const first = printProblem(problem).split('\n')[0] ?? '';
      const near = problem.didYouMean === undefined ? '' : ` «${problem.didYouMean}»`;
      return first.replace(`${FILE}:`, '').replace('   [', ' [') + near;
    });
    expect(lines).toEqual(said);
    // Warnings leave the case usable, errors do not.
    expect(read === undefined).toBe(problems.some((problem) => problem.severity === 'error'));
  });

  it('are enough to be a test', () => {
    expect(SLIPS.length).toBeGreaterThanOrEqual(45);
  });

  it('always come with a reason and a cure', () => {
    for (const { from, to } of SLIPS) {
      for (const problem of readOrchard(changed(from, to)).problems) {
        expect(printProblem(problem)).toMatch(/Why: \S[\s\S]*\n {2}Do: \S/);
      }
    }
  });

  it('says all of a page of slips in one run, by line', () => {
    let text = ORCHARD;
    for (const name of [
      'a misspelt grade',
      'a length without a unit',
      'a mark nobody knows',
      'a unit outside the quilt',
    ]) {
      const slip = SLIPS.find((each) => each.name === name);
      text = changed(slip?.from ?? '', slip?.to ?? '', text);
    }
    expect(readOrchard(text).problems.map(({ code, place }) => `${place?.line} ${code}`)).toEqual([
      '11 bad-quantity',
      '19 no-such-position',
      '28 not-an-option',
      '32 map-letter',
    ]);
  });
});

describe('layouts', () => {
  const quilt = (layout: string, survey: string): string =>
    `mendwise: 1\ncase: q\nquilt:\n  size: { width: 90 in, height: 90 in }\n  layout: { ${layout} }\nsurvey:\n  seen: in hand\n${survey}`;
  const said = (layout: string, survey: string): string[] =>
    readCase('q.yaml', quilt(layout, survey), threeFindings).problems.map(({ what }) => what);

  it('has in-between rows one shorter on point', () => {
    // 3 × 3 blocks on point: 9 outer and 4 in-between blocks (common practice, no source).
    const layout = 'kind: on point, rows: 3, columns: 3, finished: 9 in x 9 in';
    expect(said(layout, '  units: |\n    . . .\n     . .\n    . . .\n     . .\n    . . .\n')).toEqual([]);
    expect(said(layout, '  units: |\n    . . .\n    . . .\n    . . .\n     . .\n    . . .\n')).toEqual([
      'row B has 3 marks, but the layout has 2 units there',
    ]);
  });

  it('knows the neighbours of a block on point, edge units included', () => {
    const layout = 'kind: on point, rows: 3, columns: 3';
    const joins = (list: string): string => `  joins: { open_at: [${list}] }\n`;
    expect(
      said(layout, joins('"A1/B1 cloth", "A2/B1 thread", "A1|top-1 thread", "A1|top-left", "C3/right-2"')),
    ).toEqual([]);
    expect(said(layout, joins('"A1|A2 thread", "A1|top-2", "B3/A1"'))).toEqual([
      'A1 and A2 are not neighbours, so they share no join',
      'A1 and top-2 are not neighbours, so they share no join',
      'there is no unit B3 on this quilt',
    ]);
  });

  it('counts patches, not cells, on a survey grid', () => {
    const layout = 'kind: survey grid, rows: 3, columns: 3, finished: 2 in x 2 in';
    const survey = '  counts: { of: 2900, lost: 1650 }\n  joins: { inspected: 800, open: 90 }\n';
    expect(said(layout, survey)).toEqual([]);
  });

  it('finds the rows of any map again, however it is indented', () => {
    fc.assert(
      fc.property(
        fc.nat({ max: 7 }),
        fc.integer({ min: 1, max: 6 }),
        fc.nat({ max: 3 }),
        (row, indent, blank) => {
          const pad = ' '.repeat(indent + 2);
          const rows = Array.from(
            { length: 8 },
            (_, index) => `${pad}${index === row ? '. . q .' : '. . . .'}\n`,
          );
          const survey = `  units: |\n${rows.join('\n'.repeat(blank + 1)).replaceAll('\n\n', '\n\n')}`;
          const text = quilt('kind: edge to edge, rows: 8, columns: 4', survey);
          const [problem] = readCase('q.yaml', text, threeFindings).problems;
          expect(text.split('\n')[(problem?.place?.line ?? 0) - 1]?.[(problem?.place?.column ?? 0) - 1]).toBe(
            'q',
          );
        },
      ),
    );
  });
});

describe('anything at all', () => {
  it('is read or refused, never a crash, and every place lies in the file', () => {
    const lines = ORCHARD.split('\n');
    fc.assert(
      fc.property(
        fc.nat({ max: lines.length - 1 }),
        fc.string({ maxLength: 20 }),
        fc.boolean(),
        (at, junk, whole) => {
          const text = lines
            .map((line, index) => (index === at ? (whole ? junk : line + junk) : line))
            .join('\n');
          for (const { place } of readOrchard(text).problems) {
            expect(place?.line).toBeGreaterThan(0);
            expect(place?.column).toBeLessThanOrEqual((place?.text.length ?? 0) + 1);
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});
