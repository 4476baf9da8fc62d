import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { USES, type Use } from '../../src/casebook/scales.ts';
import type { DecisionContext } from '../../src/decision/context.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { isGraver } from '../../src/decision/outcome.ts';
import { question } from '../../src/decision/questions/ask.ts';
import type { Standing } from '../../src/rulebook/model.ts';
import { written } from '../arbitraries/cases.ts';
import { FULL, sample } from '../tiers.ts';
import { CASE_FILES, caseFrom, context, knowledgeWith, practice, shippedCase } from './shipped.ts';

/** Gentlest first; infant sleep is refused and read as storage. */
const HARDER: readonly Use[] = USES.filter((use) => use !== 'infant_sleep');

const forUse = (quiltCase: QuiltCase, use: Use): QuiltCase => ({
  ...quiltCase,
  client: { ...quiltCase.client, intended_use: use },
});

type Standings = (quiltCase: QuiltCase) => readonly Standing[];

const standingsBy =
  (rules: DecisionContext): Standings =>
  (quiltCase) =>
    HARDER.map((use) => evaluate(forUse(quiltCase, use), rules).outcome.standing);

/** Where a softer use is declined though a harder one is agreed to: each pair by name. */
const violations = (standings: readonly Standing[]): string[] =>
  HARDER.flatMap((soft, index) =>
    HARDER.slice(index + 1).flatMap((hard, later) => {
      const [own, other] = [standings[index], standings[index + 1 + later]];
      return own === 'decline' && (other === 'go_ahead' || other === 'not_yet')
        ? [`${soft}: ${own}, though ${hard}: ${other}`]
        : [];
    }),
  );

/** Drawn at random, some cases hold more mould than cloth, and are refused. */
const readable = (text: Parameters<typeof caseFrom>[0]): QuiltCase | undefined => {
  try {
    return caseFrom(text);
  } catch {
    return undefined;
  }
};

const RUNS = FULL ? 400 : 40;

describe('a harder use is never the way to yes', () => {
  it('over the worked cases, moved through all uses', () => {
    const left = CASE_FILES.flatMap((file) =>
      violations(standingsBy(context)(shippedCase(file))).map((what) => `${file}: ${what}`),
    );
    expect(left).toEqual([]);
  });

  it('over random cases', () => {
    fc.assert(
      fc.property(written.map(readable), (quiltCase) => {
        fc.pre(quiltCase !== undefined);
        expect(violations(standingsBy(context)(quiltCase))).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });

  it('and never stands among what would change an answer', async () => {
    const settledCases = CASE_FILES.map((file) => ({ file, settled: evaluate(shippedCase(file), context) }));
    const turned = settledCases.filter(({ settled: { outcome } }) => outcome.standing !== 'go_ahead');
    expect(turned.length).toBeGreaterThan(5);
    for (const { file, settled } of sample(turned, 4)) {
      const { use } = settled.situation;
      const { would_change } = await question(settled, context);
      const better = (would_change ?? []).filter(
        ({ standing, changes }) =>
          isGraver(settled.outcome.standing, standing) &&
          changes.some(({ finding }) => finding === 'intended_use'),
      );
      for (const { changes } of better) {
        const to = changes.find(({ finding }) => finding === 'intended_use')?.to ?? '';
        const option = context.knowledge.vocabulary.findings
          .get('intended_use')
          ?.options.find(({ label }) => label === to);
        expect(HARDER.indexOf(option?.value as Use), `${file}: ${to}`).toBeLessThan(
          HARDER.indexOf(use ?? 'storage'),
        );
      }
    }
  });

  it('would be found broken if a limit of the cloth spoke of the guest bed alone', () => {
    // The planted fault: weak cloth declined for the softer of two uses.
    const broken: DecisionContext = {
      ...context,
      practice,
      knowledge: knowledgeWith((text, name) =>
        name === 'stages/capability.yaml'
          ? text.replace('one of: [regular_bed, child_bed]', 'one of: [guest_bed]')
          : text,
      ),
    };
    const found = CASE_FILES.flatMap((file) => violations(standingsBy(broken)(shippedCase(file))));
    expect(found.length).toBeGreaterThan(0);
  });
});
