import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { editCase } from '../../src/casebook/edit-case.ts';
import {
  hiddenDamage,
  hiddenProposal,
  hoursProposals,
  type WorkedHours,
} from '../../src/experience/hours-learned.ts';
import { lifeRecord, placeOf } from '../../src/experience/life-evidence.ts';
import { acceptEdit, changes, type Proposal, priorFigures } from '../../src/experience/proposal.ts';
import { survivalBy } from '../../src/experience/survival-by.ts';
import { readFigures } from '../../src/figures/read-figures.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import type { Source } from '../../src/source/source.ts';
import { normalQuantile } from '../../src/statistics/intervals.ts';
import { linearPosterior } from '../../src/statistics/linear-posterior.ts';
import { court, demoCase } from './court.ts';

const { figures } = court.knowledge;
const both = { prior: figures, now: figures };

describe('a posterior by importance sampling', () => {
  it('agrees with the closed form where there is one: normal prior, normal observations', () => {
    // Textbook (Gelman et al., Bayesian Data Analysis, section 2.5; from memory): precisions add up.
    const observed = [0.4, 0.7, 0.2, 0.5];
    const [spread, noise] = [0.35, 0.3];
    const precision = 1 / spread ** 2 + observed.length / noise ** 2;
    const mean = observed.reduce((sum, one) => sum + one, 0) / noise ** 2 / precision;
    const posterior = linearPosterior(
      observed.map((at) => ({ weights: [1], logLikelihood: (sum) => -0.5 * ((at - sum) / noise) ** 2 })),
      [spread],
      4000,
    );
    expect(posterior.mean(0)).toBeCloseTo(mean, 2);
    for (const share of [0.1, 0.5, 0.9]) {
      expect(posterior.quantile(0, share)).toBeCloseTo(
        mean + normalQuantile(share) / Math.sqrt(precision),
        1,
      );
    }
    expect(posterior.effectiveSize).toBeGreaterThan(3000);
  });

  it('gives the prior back where nothing was observed, and the same draws every time', () => {
    const posterior = linearPosterior([], [0.5, 0.2]);
    expect(posterior.quantile(0, 0.9)).toBeCloseTo(0.5 * normalQuantile(0.9), 1);
    expect(posterior.quantile(1, 0.1)).toBeCloseTo(-0.2 * normalQuantile(0.9), 1);
    expect(linearPosterior([], [0.5, 0.2]).draws).toEqual(posterior.draws);
  });
});

const worked = (quilt: number, hours: number, estimated = { low: 6, likely: 10, high: 16 }): WorkedHours => ({
  case: `quilt-${quilt}`,
  operation: 'closing seams from the front',
  worked: hours,
  estimated,
});

describe('hours as worked', () => {
  it('propose nothing below five cases, however many lines were logged', () => {
    expect(
      hoursProposals(
        [1, 2, 3, 4, 4, 4].map((quilt) => worked(quilt, 15)),
        both,
      ),
    ).toEqual([]);
  });

  it('pull the figure towards what was worked, never past it, and the more cases the closer', () => {
    const proposed = (cases: number): Proposal => {
      const [found] = hoursProposals(
        Array.from({ length: cases }, (_, quilt) => worked(quilt, 15)),
        both,
      );
      if (found === undefined) throw new Error('no proposal');
      return found;
    };
    const [five, forty] = [proposed(5), proposed(40)];
    const shipped = figures.number('hours.seam.ladder');
    expect(five).toMatchObject({ figure: 'hours.seam.ladder', prior: shipped, now: shipped, n: 5 });
    expect(five.proposed).toBeGreaterThan(shipped);
    expect(forty.proposed).toBeGreaterThan(five.proposed);
    expect(forty.proposed).toBeLessThan(1.5 * shipped);
    expect(forty.high - forty.low).toBeLessThan(five.high - five.low);
  });
});

describe('hidden damage', () => {
  it('is what was thought sound and found damaged once open', () => {
    const opened = demoCase('heron-mill-medley');
    const damage = hiddenDamage(opened);
    const before = opened.survey.units?.flat() ?? [];
    const after = opened.resurveys[0]?.units?.flat() ?? [];
    const sound = before.filter((state) => state === 'sound' || state === 'worn').length;
    expect(damage).toMatchObject({ thoughtSound: sound });
    expect(damage?.found).toBe(before.filter((state, i) => state === 'sound' && after[i] === 'hole').length);
    expect(hiddenDamage(demoCase('north-quay-ladder'))).toBeUndefined();
  });

  it('moves the share up where much was found, and proposes nothing below five opened quilts', () => {
    const counts = [0, 1, 3, 8, 20, 2, 0, 12];
    const found = counts.map((one, i) => ({ case: `q${i}`, thoughtSound: 60, found: one }));
    expect(hiddenProposal(found.slice(0, 4), both)).toEqual([]);
    const [proposal] = hiddenProposal(found, both);
    const pooled = counts.reduce((sum, one) => sum + one, 0) / (60 * counts.length);
    expect(proposal?.proposed).toBeGreaterThan(figures.number('hours.hidden.share'));
    expect(proposal?.low).toBeLessThan(pooled);
    expect(proposal?.high).toBeGreaterThan(pooled);
  });
});

describe('accepting a proposal', () => {
  const TEXT = readFileSync(new URL('../../rules/figures.yaml', import.meta.url), 'utf8');
  const sourceOf = (text: string): Source => {
    const read = readYaml('figures.yaml', text);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    return read.source;
  };
  const proposal = (figure: string, prior: number, proposed: number): Proposal => ({
    figure,
    unit: figures.figure(figure).unit,
    prior,
    now: prior,
    proposed,
    low: 0.8 * proposed,
    high: 1.2 * proposed,
    n: 12,
    effectiveSize: 1500,
    factor: proposed / prior,
  });
  const accepted = (text: string, one: Proposal, day = '2027-01-05'): string => {
    const source = sourceOf(text);
    const edit = acceptEdit(source, one, day);
    if (edit === undefined) throw new Error('no such figure');
    return editCase(source, [edit]);
  };
  const worn = proposal('life.repair_due.worn', 4.5, 3.6);

  it('writes the figure with its evidence and keeps the old one; every other line stays as it was', () => {
    const after = accepted(TEXT, worn);
    const { figures: read, problems } = readFigures(sourceOf(after));
    expect(problems).toEqual([]);
    expect(read?.figure('life.repair_due.worn')).toMatchObject({
      likely: 3.6,
      unit: 'wear-years',
      evidence: 'studio experience',
      since: '2027-01-05',
    });
    expect(read?.figure('life.repair_due.worn').source).toContain('12 cases');
    const lines = TEXT.split('\n');
    const changed = after.split('\n').filter((line, index) => line !== lines[index]);
    expect(changed).toHaveLength(1);
    expect(changed[0]).toContain('was: [ { value: 4.5');
  });

  it('keeps a range in proportion and a percentage a percentage', () => {
    const ladder = readFigures(sourceOf(accepted(TEXT, proposal('hours.seam.ladder', 2.5, 3.5)))).figures;
    expect(ladder?.range('hours.seam.ladder')).toEqual({ low: 2.1, likely: 3.5, high: 5.6 });
    const text = accepted(TEXT, proposal('hours.hidden.share', 0.02, 0.05));
    expect(text).toContain('value: 5 %');
    expect(readFigures(sourceOf(text)).figures?.number('hours.hidden.share')).toBeCloseTo(0.05, 12);
  });

  it('never counts a quilt twice: learning goes on from what stood before experience', () => {
    const once = accepted(TEXT, worn);
    const twice = accepted(once, { ...worn, now: 3.6, proposed: 3.2 }, '2028-01-05');
    const now = readFigures(sourceOf(twice)).figures ?? figures;
    expect(now.number('life.repair_due.worn')).toBe(3.2);
    expect(priorFigures(sourceOf(twice), now).number('life.repair_due.worn')).toBe(4.5);
    expect(priorFigures(sourceOf(twice), now).number('life.repair_due.weak')).toBe(1.5);
    expect(changes({ ...worn, now: 3.6 })).toBe(false);
  });
});

describe('forecasts beside outcomes', () => {
  const forecast = { low: 2, middle: 4, high: 8, horizon: 50 };
  const at = (wholeAt: number, dueAt?: number) => ({ forecast, outcome: { wholeAt, dueAt, followups: 1 } });

  it('are inside, sooner, later, or open where follow-ups do not tell yet', () => {
    expect(placeOf(at(3, 5))).toBe('inside');
    expect(placeOf(at(1, 1.5))).toBe('sooner');
    expect(placeOf(at(9))).toBe('later');
    expect(placeOf(at(3))).toBe('open');
    expect(placeOf(at(7, 9))).toBe('open');
  });

  it('expect as many repairs as the hazard passed: at the middle of the forecast, ln 2', () => {
    const one = {
      case: 'q',
      treatment: 'tie' as const,
      use: 'guest_bed' as const,
      grade: 1,
      exposure: new Map(),
      ...at(4),
    };
    expect(lifeRecord([one]).expected).toBeCloseTo(Math.LN2, 6);
    expect(lifeRecord([]).inside).toBeUndefined();
  });

  it('give the survival of the 6-MP arm with its limits: 0.753 (0.540 to 0.904) at 10, by group', () => {
    // Freireich et al. 1963; Thomas and Grunkemeier 1975, Table 1.
    const arm: readonly (readonly [number, boolean])[] = [
      [6, true],
      [6, true],
      [6, true],
      [6, false],
      [7, true],
      [9, false],
      [10, true],
      [10, false],
      [11, false],
      [13, true],
      [16, true],
      [17, false],
      [19, false],
      [20, false],
      [22, true],
      [23, true],
      [25, false],
      [32, false],
      [32, false],
      [34, false],
      [35, false],
    ];
    const evidence = arm.map(([time, due], i) => ({
      case: `q${i}`,
      treatment: 'tie' as const,
      use: 'guest_bed' as const,
      grade: 1,
      exposure: new Map<string, number>(),
      forecast,
      outcome: due
        ? { wholeAt: time - 1, dueAt: time, followups: 1 }
        : { wholeAt: time, dueAt: undefined, followups: 1 },
    }));
    const [group] = survivalBy(evidence, ({ treatment }) => treatment);
    const step = group?.steps.find(({ time }) => time === 10);
    expect(group).toMatchObject({ name: 'tie', due: 9 });
    expect(step?.atRisk).toBe(15);
    expect(step?.survival).toBeCloseTo(0.753, 3);
    expect(step?.limits.low).toBeCloseTo(0.54, 3);
    expect(step?.limits.high).toBeCloseTo(0.904, 3);
  });
});
