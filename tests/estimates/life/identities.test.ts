import { jStat } from 'jstat';
import { describe, expect, it } from 'vitest';
import { DUE, growth, passed } from '../../../src/estimates/life/hazard.ts';
import { posterior } from '../../../src/estimates/life/posterior.ts';
import { lifePrior } from '../../../src/estimates/life/prior.ts';
import {
  anyCountLogLikelihood,
  hillNodes,
  seamLogLikelihood,
  wearLogLikelihood,
} from '../../../src/estimates/life/weighing.ts';
import { dueTable, gammaTail } from '../../../src/estimates/life/years.ts';
import { kind, quilt } from './quilts.ts';
import { shippedFigures } from './shipped-figures.ts';

const prior = lifePrior(shippedFigures());
/** Less than a millionth is cut off at the end of the table. P(Gamma(shape) > shape · x) by it, x a whole number of its cells. */
const tail = (shape: number, x: number): number => gammaTail(shape)[Math.round(x * 256)] ?? 0;

describe('the chance that no repair is due', () => {
  it('is the upper incomplete gamma function: against jstat', () => {
    for (const shape of [2, 3.3, 7, 25.5, 200])
      for (const x of [0.25, 0.5, 1, 1.5, 2, 3])
        expect(tail(shape, x), `${shape} ${x}`).toBeCloseTo(1 - jStat.lowRegGamma(shape, shape * x), 6);
  });

  // NIST Digital Library of Mathematical Functions 8.4.10 (from memory): Q(n, x) = e^−x Σ x^k / k!, k < n.
  it('is the chance of fewer than J events: P(Gamma(J) > m) = P(Poisson(m) < J)', () => {
    for (const J of [2, 4, 9]) {
      for (const x of [0.5, 1, 2]) {
        let [term, sum] = [Math.exp(-J * x), 0];
        for (let k = 0; k < J; k++) {
          sum += term;
          term *= (J * x) / (k + 1);
        }
        expect(tail(J, x)).toBeCloseTo(sum, 6);
      }
    }
  });

  // Tables of chi-squared: 5 % above 9.488 on 4 degrees of freedom and 31.410 on 20 (Gamma(ν/2) is half of chi-squared).
  it('meets the tables of chi-squared', () => {
    const at = (shape: number, x: number): number => {
      const cell = x * 256;
      const [left, right] = [Math.floor(cell), Math.ceil(cell)].map((i) => gammaTail(shape)[i] ?? 0) as [
        number,
        number,
      ];
      return left + (cell - Math.floor(cell)) * (right - left);
    };
    expect(at(2, 9.488 / 2 / 2)).toBeCloseTo(0.05, 4);
    expect(at(10, 31.41 / 2 / 10)).toBeCloseTo(0.05, 4);
  });

  it('has a mark of a twentieth of the quilt, and never fewer than two parts', () => {
    expect(dueTable(257, 200, prior)).toMatchObject({ mark: 0.05, shape: (0.05 * 200) / 1.5 });
    expect(dueTable(20, 20, prior)).toMatchObject({ mark: 0.1, shape: 2 });
  });
});

describe('hazards', () => {
  it('reach 5 % at the life they are named for, whatever the wear so far and the shape', () => {
    for (const [life, wear, shape] of [
      [7, 15, 2.5],
      [0.65, 3, 1.4],
      [1.5, 60, 4],
    ] as const)
      expect(1 - Math.exp(-passed(life, wear, shape) * growth(life, wear, shape))).toBeCloseTo(0.05, 12);
    expect(DUE).toBeCloseTo(0.0512932944, 9);
  });

  // With shape 1 there is no ageing: a further 5 % in r wear-years, whatever went before.
  it('of shape 1 have no memory', () => {
    expect(passed(4, 10, 1) * growth(4, 10, 1)).toBeCloseTo(passed(4, 40, 1) * growth(4, 40, 1), 12);
  });
});

describe('the likelihoods', () => {
  // Σ over all counts of n-choose-x times the likelihood is 1: exact where damage does not clump.
  it('are those of a binomial where damage does not clump', () => {
    const n = 12;
    let [sum, any] = [0, 0];
    for (let x = 0, choose = 1; x <= n; choose *= (n - x) / (x + 1), x++) {
      sum += choose * Math.exp(wearLogLikelihood(0.3, x, n, 1));
      any += choose * Math.exp(anyCountLogLikelihood(x, n, 1));
      // any count is as likely as another: 1 in n + 1
      expect(choose * Math.exp(anyCountLogLikelihood(x, n, 1))).toBeCloseTo(1 / (n + 1), 10);
    }
    expect(sum).toBeCloseTo(1, 10);
    expect(any).toBeCloseTo(1, 10);
  });

  // Two causes competing at constant hazards a and b: by time t cause j has taken a_j/(a + b) of 1 − e^−(a + b)t, the
  // cumulative incidence of tma4275.math.ntnu.no, problem "Competing risks model", part (a). Here t is 1.
  it('share opened seams between causes as the published cumulative incidence of two exponential lives does', () => {
    for (const [a, b] of [
      [0.3, 0.1],
      [0.02, 0.5],
      [2, 1.5],
    ] as const) {
      const log = (thread: number, cloth: number, untold: number, seen: number): number =>
        Math.exp(seamLogLikelihood([{ share: 1, thread: a, cloth: b }], { seen, thread, cloth, untold }, 1));
      const incidence = (own: number): number => (own / (a + b)) * (1 - Math.exp(-(a + b)));
      expect(log(1, 0, 0, 1)).toBeCloseTo(incidence(a), 12);
      expect(log(0, 1, 0, 1)).toBeCloseTo(incidence(b), 12);
      expect(log(0, 0, 1, 1)).toBeCloseTo(incidence(a) + incidence(b), 12);
      expect(log(0, 0, 0, 1)).toBeCloseTo(Math.exp(-(a + b)), 12);
      // the same by its definition, the integral of a · P(neither yet), added up in a thousand steps
      const steps = Array.from({ length: 1000 }, (_, i) => a * Math.exp(-((a + b) * (i + 0.5)) / 1000));
      expect(log(1, 0, 0, 1)).toBeCloseTo(
        steps.reduce((sum, step) => sum + step / 1000, 0),
        5,
      );
    }
  });

  // Of n seams, counts by two causes and none are multinomial: over all of them the chances add up to 1.
  it('are a multinomial over thread, cloth and whole', () => {
    const n = 6;
    const factorial = (k: number): number => (k < 2 ? 1 : k * factorial(k - 1));
    let sum = 0;
    for (let thread = 0; thread <= n; thread++)
      for (let cloth = 0; cloth <= n - thread; cloth++) {
        const ways = factorial(n) / (factorial(thread) * factorial(cloth) * factorial(n - thread - cloth));
        const seen = { seen: n, thread, cloth, untold: 0 };
        sum += ways * Math.exp(seamLogLikelihood([{ share: 1, thread: 0.3, cloth: 0.2 }], seen, 1));
      }
    expect(sum).toBeCloseTo(1, 10);
  });
});

describe('the posterior', () => {
  it('sums a hill as its integral: a normal density, exactly', () => {
    const { log, nodes } = hillNodes((x) => -0.5 * ((x - 2) / 0.3) ** 2, {
      top: 0,
      width: 1,
      reach: 4,
      fineness: 1,
    });
    // the half of a thousandth that lies beyond four widths is left out
    expect(log).toBeCloseTo(Math.log(0.3 * Math.sqrt(2 * Math.PI)), 3);
    const all = nodes.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
    const mean = nodes.reduce((sum, { at, logWeight }) => sum + (at * Math.exp(logWeight)) / all, 0);
    expect(mean).toBeCloseTo(2, 6);
  });

  // The same posterior by brute force: every latent number on a dense grid, wider than the shipped sums reach.
  it('agrees with a dense grid over all the latent numbers', { timeout: 120_000 }, () => {
    const counts = { seen: 60, worn: 9, untold: 0 };
    const seams = { seen: 90, thread: 16, cloth: 4, untold: 0 };
    const one = quilt([kind(1, 1, counts)], { seams });
    const { likenesses } = posterior(one, prior, 1);
    const shipped = { life: 0, thread: 0 };
    for (const { weight, lives, thread } of likenesses) {
      shipped.life += weight * Math.log(lives[0] ?? 1);
      shipped.thread += weight * Math.log(thread);
    }
    const { differs, clumped } = prior;
    const steps = (reach: number, step: number): number[] =>
      Array.from({ length: Math.round((2 * reach) / step) + 1 }, (_, i) => i * step - reach);
    const shared = differs.both ** 2 / differs.cloth ** 2;
    const spread = Math.sqrt(differs.thread ** 2 - shared * differs.both ** 2);
    const L = -Math.log(0.95);
    let [all, life, threads] = [0, 0, 0];
    for (const a of steps(4.5, 0.75)) {
      const wear = 15 * Math.exp(differs.told_wear * a);
      for (const k of steps(4.5, 0.75)) {
        const shape = prior.shape.median * Math.exp(prior.shape.spread * k);
        const H = (r: number): number => L / ((1 + r / wear) ** shape - 1);
        for (const c of steps(5, 0.5)) {
          for (const e of steps(5, 0.5)) {
            const own = Math.log(4.5) + differs.cloth * c + differs.fabric * e;
            const cloth = H(Math.exp(own));
            const units = (9 * Math.log(1 - Math.exp(-cloth)) - 51 * cloth) / clumped.units;
            for (const t of steps(5, 0.25)) {
              const s = shared * differs.cloth * c + spread * t;
              const [byThread, byCloth] = [0.85 * H(4.5 * Math.exp(s)), 0.15 * cloth];
              const sum = byThread + byCloth;
              const open = Math.log((1 - Math.exp(-sum)) / sum);
              const log =
                (16 * (open + Math.log(byThread)) + 4 * (open + Math.log(byCloth)) - 70 * sum) /
                clumped.seams;
              const weight = Math.exp(units + log - 0.5 * (a * a + k * k + c * c + e * e + t * t) + 60);
              all += weight;
              life += weight * own;
              threads += weight * s;
            }
          }
        }
      }
    }
    // a kind's own share is summed before its seams are looked at, which moves the means by a hundredth at most
    expect(shipped.life).toBeCloseTo(life / all, 1);
    expect(Math.abs(shipped.life - life / all)).toBeLessThan(0.02);
    expect(Math.abs(shipped.thread - threads / all)).toBeLessThan(0.02);
  });
});
