import type { Problem } from '../../problems/problem.ts';
import { notingLooks } from '../hazards.ts';
import type { QuiltCase, TreatedHazard } from '../model.ts';
import type { Check } from './check.ts';

type Flaw = Omit<Problem, 'severity' | 'place'> & { readonly severity?: Problem['severity'] };
interface Found extends Flaw {
  /** The line of the entry it lies in; the whole entry where absent. */
  readonly at?: keyof TreatedHazard;
}

/** What was done about a hazard answers one that was noted, and not before it was; somebody did it, and another says so. */
export const checkTreated: Check = ({ source, quiltCase }) =>
  (quiltCase.treated ?? []).flatMap((entry, index, all): Problem[] =>
    [...misplaced(entry, index, all, quiltCase), ...nameless(entry)].map(({ at, ...flaw }) => ({
      severity: 'error',
      ...flaw,
      place: source.place(['treated', index, ...(at === undefined ? [] : [at])]),
    })),
  );

/** Words that name nobody, a single sign or no letter at all; and words for nothing done. */
const NOBODY = /^(nobody|no one|noone|none|not known|somebody|someone|anybody|n a|.?|\P{L}*)$/u;
const NOTHING =
  /^(none|no|not (yet )?(done|treated)|nothing( (was|has been|is))?( done)?( yet)?|not known|n a)$/u;

const bareWords = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const SOMEBODY_ELSE =
  'Name who did it under "by". Under "confirmed_by" name somebody else, or the letter or report that says so.';

function nameless(entry: TreatedHazard): Found[] {
  const name = entry.hazard.replaceAll('_', ' ');
  const why =
    'A stop keeps people from harm. Only what somebody did, and what somebody else confirms, lifts it.';
  if (NOTHING.test(bareWords(entry.how)) || !/\p{L}{2}/u.test(entry.how))
    return [
      {
        code: 'not-confirmed',
        what: `"${entry.how}" does not say what was done about ${name}`,
        why,
        cure: 'Say in a sentence what was done, or how it came to be noted by mistake.',
        at: 'how',
      },
    ];
  for (const at of ['by', 'confirmed_by'] as const)
    if (NOBODY.test(bareWords(entry[at])))
      return [{ code: 'not-confirmed', what: `"${entry[at]}" names nobody`, why, cure: SOMEBODY_ELSE, at }];
  if (bareWords(entry.by) !== bareWords(entry.confirmed_by)) return [];
  const what = `${name} was dealt with by ${entry.by}, and nobody else confirms it`;
  return [{ code: 'not-confirmed', what, why, cure: SOMEBODY_ELSE, at: 'confirmed_by' }];
}

function misplaced(
  { hazard, on, found }: TreatedHazard,
  index: number,
  all: readonly TreatedHazard[],
  quiltCase: QuiltCase,
): Found[] {
  const name = hazard.replaceAll('_', ' ');
  const [first] = notingLooks(quiltCase, hazard);
  // It may stand in a survey of somebody else, where nobody has looked for those.
  if (first === undefined && quiltCase.elsewhere === undefined) return [];
  if (first === undefined) {
    const what = `${name} was dealt with on ${on}, but no look at this quilt notes any`;
    return [{ code: 'hazard-not-noted', what, at: 'hazard' }];
  }
  const same = all.findIndex((other) => other.hazard === hazard && other.on === on);
  if (same < index)
    return [
      {
        code: 'already-there',
        what: `${name} is written down as dealt with on ${on} already: ${all[same]?.how}`,
        why: 'One thing done counts once, and of two accounts of it nobody could say which holds.',
        cure: 'Keep one of the two entries under "treated", or correct the date of one.',
      },
    ];
  if (hazard === 'poison' && found === undefined)
    return [
      {
        code: 'missing-key',
        severity: 'warning',
        what: 'poison was tested for, but nothing says what was found, so the stop stays',
        cure: 'Add found: harmless or found: present.',
      },
    ];
  if (first.on === undefined)
    return [
      {
        code: 'missing-key',
        what: `nothing says on which day ${name} was noted, so nobody can say that ${on} came after it`,
        why: 'What was done before a hazard was seen cannot have removed it.',
        cure: 'Write the day of that look first, as the line "on:" under "survey".',
        at: 'on',
      },
    ];
  if (on >= first.on) return [];
  // Told in a first message, dealt with, and only then seen in hand: possible, and the stop holds.
  const told = quiltCase.opened !== undefined && on >= quiltCase.opened;
  return [
    {
      code: 'dates-disagree',
      what: `${name} was dealt with on ${on}, before it was first noted on ${first.on}`,
      why: 'What was done before a hazard was seen cannot have removed it.',
      ...(told
        ? {
            severity: 'warning' as const,
            cure: 'The stop holds. Correct the wrong date, or write down what was done since.',
          }
        : {}),
      at: 'on',
    },
  ];
}
