import { describe, expect, it } from 'vitest';
import { asSurveyed, readSecondSurvey, secondSurveyOf } from '../../src/casebook/second-survey.ts';
import { readOrchard, threeFindings } from './reading.ts';

const base = readOrchard().case;
if (base === undefined) throw new Error('the fixture does not read');

const text = (lines = ''): string => `mendwise: 1
survey_of: orchard-fourpatch
by: helper-c
survey:
  seen: in hand
  by: helper-c
  families:
    A: { fragility: worn }
    B: { fragility: sound }
  units: |
    . . . . . .
    . w . x . .
    . . . . h .
    s . . . . ?
    . . - . . p
${lines}quilt:
  backing: { fragility: weak }
`;

const read = (
  content = text(),
  file = 'cases/orchard-fourpatch.helper-c.yaml',
  of: typeof base | undefined = base,
) => readSecondSurvey(file, content, threeFindings, of);

describe('a second survey', () => {
  it('is read beside its case, and states only what its own surveyor found', () => {
    const { survey, problems } = read();
    expect(problems).toEqual([]);
    if (survey === undefined) throw new Error('not read');
    const seen = asSurveyed(base, survey);
    expect(seen.quilt.backing).toEqual({ fragility: 'weak' });
    expect(seen.quilt.batting).toBeUndefined();
    expect(seen.quilt.layout).toEqual(base.quilt.layout);
    expect(seen.survey.families?.A).toEqual({ fragility: 'worn' });
    expect(seen.resurveys).toEqual([]);
    expect(seen.client).toEqual(base.client);
  });

  it('of a case nobody knows is refused', () => {
    const { survey, problems } = readSecondSurvey('x.y.yaml', text(), threeFindings, undefined);
    expect(survey).toBeUndefined();
    expect(problems.map(({ what }) => what)).toContain(
      'this is a second survey of "orchard-fourpatch", but there is no such case',
    );
  });

  it('by the helper who made the first is refused: the fixture was surveyed by helper-b', () => {
    const again = text().replaceAll('helper-c', 'helper-b');
    const { problems } = read(again, 'cases/orchard-fourpatch.helper-b.yaml');
    expect(problems[0]?.code).toBe('already-there');
    expect(problems[0]?.what).toContain('the same helper twice');
    expect(problems[0]?.place?.line).toBe(3);
  });

  it('carries the names of its case and helper in its own', () => {
    expect(read(text(), 'cases/orchard-fourpatch.helper-d.yaml').problems[0]?.code).toBe('case-name');
    expect(secondSurveyOf('cases/orchard-fourpatch.helper-d.yaml')).toEqual({
      caseName: 'orchard-fourpatch',
      helper: 'helper-d',
    });
    expect(secondSurveyOf('cases/orchard-fourpatch.yaml')).toBeUndefined();
  });

  it('has a map that fits the layout, with the fault on its own line', () => {
    const short = text().replace('    . w . x . .\n', '    . w . x .\n');
    const [problem] = read(short).problems;
    expect(problem?.code).toBe('map-shape');
    expect(problem?.place?.file).toBe('cases/orchard-fourpatch.helper-c.yaml');
  });

  it('knows no more names than a survey has', () => {
    expect(read(text('client: { budget: 3 }\n')).problems[0]?.code).toBe('unknown-key');
  });
});
