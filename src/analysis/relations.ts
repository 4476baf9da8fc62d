import type { Figures } from '../figures/model.ts';
import type { Fact } from '../findings/fact.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { factOfOption } from '../findings/vocabulary.ts';
import type { Box, CellSet, Relation, Space } from './cells.ts';

const is = (wanted: Fact) => (fact: Fact) => fact === wanted;
const number = (test: (value: number) => boolean) => (fact: Fact) => typeof fact === 'number' && test(fact);

/**
 * What follows from what: needless questions of the vocabulary, and how a few derived findings are reckoned. Anything
 * not named here is treated as independent.
 */
export function relationsOf(vocabulary: Vocabulary, figures: Figures): Relation[] {
  const needless = [...vocabulary.findings.values()].flatMap((def) =>
    def.needless.flatMap(({ finding, is: word, gives }): Relation[] => {
      const other = vocabulary.findings.get(finding);
      const value = other !== undefined && typeof word === 'string' ? factOfOption(other, word) : word;
      return [
        {
          words: `${def.id} follows from ${finding}`,
          given: { key: `finding.${finding}`, holds: is(value) },
          follows: { key: `finding.${def.id}`, holds: is(gives) },
        },
      ];
    }),
  );
  const mark = figures.number('findings.governing_area');
  const governing = (of: 'finding' | 'planned'): Relation => ({
    words: 'cloth that fails over more than the governing area governs',
    given: { key: `${of}.failing_share`, holds: number((share) => share >= mark) },
    follows: { key: `${of}.governing_fragility`, holds: is(4) },
  });
  const none = (key: string): Relation => ({
    words: 'where no seam has opened none has opened for any cause',
    given: { key: 'finding.join_failure', holds: is(0) },
    follows: { key, holds: is(0) },
  });
  return [
    ...needless,
    governing('finding'),
    governing('planned'),
    none('finding.cloth_share_of_failures'),
    none('planned.cloth_share_of_failures'),
    none('planned.cloth_joins_of_seen'),
    none('finding.allowance_gone_share'),
    {
      words: 'no joining is none to rely on',
      given: { key: 'finding.joining_kind', holds: is('none') },
      follows: { key: 'finding.old_joining_intact', holds: is(false) },
    },
    {
      words: 'cloth that is lost in one fabric alone is lost in the top',
      given: { key: 'finding.loss', holds: is(0) },
      follows: { key: 'finding.worst_family_loss', holds: is(0) },
    },
    {
      words: 'where nothing is sewn no stitch enters any cloth',
      given: { key: 'plan.treatment', holds: is('leave') },
      follows: { key: 'finding.line_fragility', holds: is(0) },
    },
    {
      words: 'without batting no gap is too wide for it',
      given: { key: 'plan.batting', holds: is('none') },
      follows: { key: 'plan.gap_to_rating', holds: (fact) => typeof fact !== 'number' || fact <= 1 },
    },
    {
      words: 'a fabric of silk is silk in it',
      given: { key: 'family.fibre', holds: is('silk') },
      follows: { key: 'finding.silk_present', holds: is(true) },
    },
    {
      words: 'silk and wool are delicate',
      given: { key: 'finding.silk_present', holds: is(true) },
      follows: { key: 'finding.delicate_fibre', holds: is(true) },
    },
  ];
}

const cells = (samples: readonly Fact[], holds: (fact: Fact) => boolean): CellSet =>
  samples.reduce<CellSet>((set, sample, cell) => (holds(sample) ? set | (1n << BigInt(cell)) : set), 0n);

/** Takes from a box what the relations exclude; undefined where nothing is left. */
export function narrowed(box: Map<string, CellSet>, { axes, relations }: Space): Box | undefined {
  for (let again = true; again; ) {
    again = false;
    for (const { given, follows } of relations) {
      const [cause, result] = [axes.get(given.key), axes.get(follows.key)];
      const [from, to] = [box.get(given.key), box.get(follows.key)];
      if (cause === undefined || result === undefined || from === undefined || to === undefined) continue;
      const causing = cells(cause.samples, given.holds);
      const resulting = cells(result.samples, follows.holds);
      if ((from & ~causing) === 0n && (to & ~resulting) !== 0n) {
        if ((to & resulting) === 0n) return undefined;
        box.set(follows.key, to & resulting);
        again = true;
      } else if ((to & resulting) === 0n && (from & causing) !== 0n) {
        if ((from & ~causing) === 0n) return undefined;
        box.set(given.key, from & ~causing);
        again = true;
      }
    }
  }
  return box;
}
