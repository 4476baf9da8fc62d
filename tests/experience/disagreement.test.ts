import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import type { SecondSurvey } from '../../src/casebook/second-survey.ts';
import { decide } from '../../src/decision/decide.ts';
import {
  differences,
  disagreements,
  filled,
  thatMatter,
  withAnswer,
} from '../../src/experience/disagreement.ts';
import { court, demoCase, demoSurvey } from './court.ts';

const base = demoCase('kiln-yard-squares');
const others = [demoSurvey('kiln-yard-squares', 'helper-a'), demoSurvey('kiln-yard-squares', 'helper-b')];

const ofRecord = async (quiltCase: QuiltCase) => {
  const { answer } = await decide(quiltCase, court);
  return { standing: answer.standing, treatment: answer.treatment };
};

describe('surveys that disagree', () => {
  const found = disagreements(base, others, court);

  it('put first what changes the answer, and name nothing else among it', () => {
    const matter = thatMatter(found);
    expect(matter.map(({ pairs }) => pairs[0]?.topic.key)).toEqual(['survey.families.A.fragility']);
    expect(found.all.slice(0, matter.length)).toEqual(matter);
    expect(found.all.length).toBeGreaterThan(matter.length);
  });

  it('show for each swing what the decision of record gives too', async () => {
    for (const one of thatMatter(found)) {
      const [path] = one.pairs.flatMap(({ topic }) => topic.differences.map(({ a }) => a.path));
      for (const { helper, with: other, from, to } of one.swings) {
        const view = (name: string) => found.views.find((each) => each.helper === name)?.quiltCase ?? base;
        expect(await ofRecord(view(helper))).toEqual(from);
        expect(await ofRecord(withAnswer(view(helper), view(other), path ?? []))).toEqual(to);
        expect(to).not.toEqual(from);
      }
    }
  });

  it('try every ordered pair of helpers who differ', () => {
    // helper-b alone differs on this grade: from helper-c and helper-a, both ways.
    expect(thatMatter(found)[0]?.tried).toBe(4);
    expect(thatMatter(found)[0]?.swings).toHaveLength(4);
  });

  it('that say the same have nothing to settle', () => {
    const same: SecondSurvey = {
      mendwise: 1,
      survey_of: base.case,
      by: 'helper-z',
      survey: base.survey,
      quilt: base.quilt,
    };
    const agreed = disagreements(base, [same], court);
    expect(agreed.all).toEqual([]);
    expect(agreed.onlyTogether).toBe(false);
  });

  it('count what one of them left out as taken from the first, not as a difference', () => {
    const blank: SecondSurvey = {
      mendwise: 1,
      survey_of: base.case,
      by: 'helper-z',
      survey: { seen: 'in hand', findings: {} },
    };
    expect(differences(base, filled(base, blank), court.knowledge.vocabulary)).toEqual([]);
    const odour: SecondSurvey = { ...blank, survey: { seen: 'in hand', findings: { odour: 'in_the_room' } } };
    const all = differences(base, filled(base, odour), court.knowledge.vocabulary);
    expect(all.map(({ finding, a, b }) => [finding, a.value, b.value])).toEqual([
      ['odour', 'none', 'in_the_room'],
    ]);
  });

  it('keep units not looked at again as the first survey has them', () => {
    const units = (base.survey.units ?? []).map((row) => row.map(() => 'unseen' as const));
    const second: SecondSurvey = {
      mendwise: 1,
      survey_of: base.case,
      by: 'helper-z',
      survey: { seen: 'in hand', findings: {}, units },
    };
    expect(filled(base, second).survey.units).toEqual(base.survey.units);
  });

  it('name the unit whose state alone changes the answer', () => {
    // Common practice: more than half of the top lost is no repair. All of fabric A is exactly half of it.
    const half = (base.survey.units ?? []).map((row, r) =>
      row.map((_, c) => (base.survey.family_map?.[r]?.[c] === 'A' ? ('lost' as const) : ('sound' as const))),
    );
    const more = half.map((row, r) =>
      row.map((state, c) => (r === 0 && c === 1 ? ('lost' as const) : state)),
    );
    const first: QuiltCase = { ...base, survey: { ...base.survey, units: half } };
    const second: SecondSurvey = {
      mendwise: 1,
      survey_of: base.case,
      by: 'helper-z',
      survey: { ...base.survey, units: more },
    };
    const { all } = disagreements(first, [second], court);
    expect(all.map(({ label }) => label)).toEqual(['states of units']);
    expect(all[0]?.swings.map(({ to }) => to.standing)).toContain('decline');
    expect(all[0]?.units).toEqual(['A2']);
  });
});
