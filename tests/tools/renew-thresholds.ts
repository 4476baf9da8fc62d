// `npm run --silent thresholds`: writes today's answers into tests/thresholds.yaml, and says which rows changed.
// Look at each of them: a row that changes without being meant to is what the table is for.
import { writeFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { evaluateCase, studyOf } from '../../src/analysis/study.ts';
import type { Expectation } from '../../src/casebook/model.ts';
import { stageRules } from '../../src/decision/precedence.ts';
import { bookOn, runTool } from './studies.ts';
import { type Row, readTable, TABLE, textOfTable, thresholdCases } from './thresholds.ts';

const DAY = '2026-12-01';

/** What changed, a line each. */
const told = (was: Expectation, is: Expectation): string[] => [
  ...(['standing', 'treatment', 'actions'] as const)
    .filter((name) => !isDeepStrictEqual(was[name], is[name]))
    .map((name) => `  ${name}: ${String(was[name])} → ${String(is[name])}`),
  ...(is.because ?? []).filter((rule) => !was.because?.includes(rule)).map((rule) => `  + ${rule}`),
  ...(was.because ?? []).filter((rule) => !is.because?.includes(rule)).map((rule) => `  - ${rule}`),
];

runTool(async () => {
  const { studio, knowledge } = await bookOn(DAY);
  const table = readTable();
  const cases = thresholdCases(knowledge.vocabulary, table);
  const rules = stageRules(knowledge.rulebook);
  const known = new Set(knowledge.rulebook.rules.map(({ id }) => id));
  const rows = table.rows.map((row, index): Row => {
    const quiltCase = cases[index];
    if (quiltCase === undefined) return row;
    const study = studyOf({ file: row.case, quiltCase, from: 'shipped' }, knowledge, studio.practice, DAY);
    const { standing, treatment, cited, actions } = evaluateCase(study.situation, rules, knowledge.subjects);
    const { because, not_because: not, actions: acted } = row.expect;
    // What a row was silent on it stays silent on; what it held against a rule it holds until the rule is cited.
    const absent = [...(not ?? []), ...(because ?? [])].filter((rule) => known.has(rule) && !cited.has(rule));
    // The order of rules in their files is nothing to the answer.
    const same = because !== undefined && isDeepStrictEqual(new Set(because), new Set(cited));
    const expect: Expectation = {
      standing,
      treatment,
      ...(because === undefined ? {} : { because: same ? because : [...cited] }),
      ...(absent.length === 0 ? {} : { not_because: absent }),
      ...(acted === undefined ? {} : { actions: actions as NonNullable<Expectation['actions']> }),
    };
    if (isDeepStrictEqual(expect, row.expect)) return row;
    console.log([row.case, ...told(row.expect, expect)].join('\n'));
    return { ...row, expect };
  });
  const changed = rows.filter((row, index) => row !== table.rows[index]).length;
  console.log(`${changed} of ${rows.length} rows changed.`);
  writeFileSync(TABLE, textOfTable({ ...table, rows }));
});
