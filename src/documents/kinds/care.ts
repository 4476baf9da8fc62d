import { GRADES, type Use } from '../../casebook/scales.ts';
import type { Way } from '../../decision/answer-model.ts';
import { clean } from '../clean.ts';
import type { Section } from '../model.ts';
import { forHome, inUse, saidSection } from '../sections/choice.ts';
import { isHazardous, unsafeReason } from '../sections/safety.ts';
import { atWorst, washingSection } from '../sections/washing.ts';
import type { Writing } from '../writing.ts';
import { isForecast, yearsRange } from '../years.ts';
import { frame } from './frame.ts';
import type { Kind } from './kind.ts';

/** How to live with the quilt. */
export const careSheet: Kind = {
  name: 'care',
  summary: 'how to use, keep and watch the quilt',
  questions: false,
  // What was finished before anybody asked is cared for like the rest.
  unfit: (writing) =>
    isHazardous(writing) || writing.finished === undefined ? unsafeReason(writing) : undefined,
  write(writing) {
    return frame(writing, writing.say('care.title'), [
      useSection(writing),
      washingSection(writing),
      ...saidSection(writing.say('care.rules'), forHome((writing.way ?? writing.answer).cautions)),
      {
        title: 'For any old quilt',
        blocks: [
          {
            kind: 'list',
            items: [
              ...writing.items('care.baby'),
              ...writing.items('care.general'),
              ...(hangs(writing) ? writing.items('care.hung') : []),
              ...writing.items('care.keeping'),
            ],
          },
        ],
      },
      ...watchSection(writing),
      {
        title: writing.say('care.return'),
        blocks: [{ kind: 'list', items: writing.items('care.return_list') }],
      },
    ]);
  },
};

/** What is too fragile to bear its own weight is not hung, whatever was wished. */
const hangs = ({ situation, facts }: Writing): boolean => {
  const grade = facts['planned.governing_fragility'];
  return situation.quiltCase.client.hung === true && grade !== undefined && atWorst(grade) < FRAGILE;
};
const FRAGILE = GRADES.indexOf('fragile');

/** What was done, once it is; till then what was agreed on. */
const done = (writing: Writing): Pick<Way, 'treatment' | 'estimates'> | undefined =>
  writing.finished?.told ?? writing.way;

function useSection(writing: Writing): Section {
  const { answer, situation } = writing;
  const { treatment } = done(writing) ?? {};
  const sewn = treatment !== undefined && treatment !== 'leave';
  const use = situation.use;
  const first = !sewn
    ? writing.say('care.untreated')
    : use === undefined
      ? writing.say('care.no_use')
      : writing.say(writing.finished === undefined ? 'care.meant' : 'care.use', {
          use: inUse(writing.use(use)),
        });
  const life = done(writing)?.estimates.life_years;
  return {
    title: 'Using it',
    blocks: [
      { kind: 'paragraph', text: first },
      ...answer.refused_uses.map(
        (refused: Use) =>
          ({
            kind: 'paragraph',
            text: [{ strong: writing.say('care.refused', { use: writing.use(refused) }) }],
          }) as const,
      ),
      ...(life === undefined || !isForecast(life)
        ? []
        : [{ kind: 'paragraph', text: writing.say('care.years', { years: yearsRange(life) }) } as const]),
    ],
  };
}

function watchSection(writing: Writing): Section[] {
  const weakest = done(writing)?.estimates.life_years.weakest_link;
  const fabrics = writing.weakFabrics.map(({ name, fragility }) =>
    writing.say('care.fabrics', { grade: writing.grade(fragility), fabric: clean(name) }),
  );
  const items = [
    ...(weakest === undefined ? [] : [writing.say('care.weakest', { part: clean(weakest) })]),
    ...fabrics,
  ];
  return items.length === 0 ? [] : [{ title: writing.say('care.watch'), blocks: [{ kind: 'list', items }] }];
}
