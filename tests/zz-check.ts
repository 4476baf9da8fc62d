import { readFileSync, readdirSync, writeFileSync, mkdirSync } from 'node:fs';
import { caseFrom, shipped, practice, AS_OF, shippedCase, CASE_FILES } from './decision/shipped.ts';
import { decide, decideQuick } from '../src/decision/decide.ts';
import { question } from '../src/decision/questions/ask.ts';
const ctx = { knowledge: shipped, practice, day: AS_OF };
mkdirSync('/tmp/evalout', { recursive: true });
const times: number[] = []; const qt: number[] = [];
for (const f of CASE_FILES) { const c = shippedCase(f); decideQuick(c, ctx); }
for (const f of CASE_FILES) {
  const c = shippedCase(f);
  let t = performance.now(); const d = decideQuick(c, ctx); times.push(performance.now() - t);
  const rec = await decide(c, ctx);
  t = performance.now(); const q = await question(d, ctx); qt.push(performance.now() - t);
  writeFileSync('/tmp/evalout/' + f.replaceAll('/', '_') + '.json', JSON.stringify({ ...rec.answer, ...q }, null, 2));
}
const med = (a: number[]) => [...a].sort((x, y) => x - y)[a.length >> 1];
console.log('quick median', med(times), 'max', Math.max(...times), 'questions median', med(qt), 'max', Math.max(...qt), CASE_FILES.length);
