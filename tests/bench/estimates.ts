// How long it takes to estimate every candidate plan of a quilt of 400 units, one decision's worth, on one core after
// warm-up. The target is 50 ms, with a known history and with an unknown one. Figures are printed, nothing is asserted.

import { performance } from 'node:perf_hooks';
import { contextOf } from '../../src/decision/context.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { estimatesOf, type Situation } from '../../src/decision/situation.ts';
import { openStudio } from '../../src/store/studio.ts';
import { squares, told } from './squares.ts';

/** Asks for everything, holes by unit for the picture left out: one plan is drawn, not all. */
const workOut = ({ options }: Situation): number =>
  options.reduce((sum, option) => {
    const { life, holes, hours, price, materials } = estimatesOf(option);
    return sum + life.middle + holes.newOldFace + hours.likely + price.likely + materials.items.length;
  }, 0);

const RUNS = 40;
const studio = await openStudio({ rules: 'rules' });
const context = contextOf(studio, '2026-11-27');
for (const [name, history] of [
  ['history known', told],
  ['history unknown', () => ''],
] as const) {
  const times: number[] = [];
  let plans = 0;
  for (let run = 0; run < 2 * RUNS; run += 1) {
    const quilt = squares(run, history(run), studio);
    const situation = evaluate(quilt, context).situation;
    const start = performance.now();
    workOut(situation);
    const took = performance.now() - start;
    plans = situation.options.length;
    if (run >= RUNS) times.push(took);
  }
  times.sort((a, b) => a - b);
  const at = (share: number): string => (times[Math.floor(share * (times.length - 1))] ?? 0).toFixed(1);
  console.log(
    `estimates, 400 units, ${plans} plans, ${name}: ${at(0.5)} ms (fastest ${at(0)}, nine in ten under ${at(0.9)})`,
  );
}
