import { it } from 'vitest';
import { sameVerdict } from '/work/main/src/decision/answer-model.ts';
import { knobsOf } from '/work/main/src/decision/questions/ask.ts';
import { Bearings, FABRICS } from '/work/main/src/decision/questions/next-question.ts';
import { Trials } from '/work/main/src/decision/questions/variable.ts';
import { CASE_FILES, context, shipped, shippedCase } from '/work/main/tests/decision/shipped.ts';
const bearings = () => new Bearings(context);
const EVERYTHING = new Set([
  ...shipped.vocabulary.findings.keys(),
  ...['A', 'B', 'C', 'D', 'E', 'F'].flatMap((l) => [...shipped.vocabulary.family.keys()].map((id) => `${l}.${id}`)),
  'joins.open','joins.cloth','lost',FABRICS,
]);
import { verdictOf } from '/work/main/src/decision/evaluate.ts';
it('x', { timeout: 3e6 }, () => {
  const trials = new Trials(context);
  for (const file of CASE_FILES) {
    const quilt = shippedCase(file);
    if (bearings().on(quilt, EVERYTHING).length) continue;
    const { alone, knobs } = knobsOf(quilt, context);
    const open = knobs.filter(({ id, current, likely }) => current === undefined && EVERYTHING.has(id) && likely.length > 0);
    const base = trials.answer(alone);
    const bad: string[] = [];
    const singles = open.flatMap((k) => k.likely.map((l) => ({ k, v: l.value })));
    for (let i = 0; i < singles.length; i++) for (let j = i + 1; j < singles.length; j++) {
      const y = singles[i]!, t = singles[j]!;
      if (y.k === t.k) continue;
      const a = verdictOf(t.k.set(y.k.set(alone, y.v), t.v), context);
      if (!sameVerdict(a, base)) bad.push(`${y.k.id}=${y.v} ${t.k.id}=${t.v}: ${JSON.stringify(base)} -> ${JSON.stringify(a)}`);
    }
    console.log(file, open.length, JSON.stringify(base).slice(0,100), bad.length, bad.slice(0,8).join('\n'));
  }
});
