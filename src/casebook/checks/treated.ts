import type { Problem } from '../../problems/problem.ts';
import { notedAt } from '../hazards.ts';
import type { Check } from './check.ts';

/** What was done about a hazard answers one that was noted, and not before it was. */
export const checkTreated: Check = ({ source, quiltCase }) =>
  (quiltCase.treated ?? []).flatMap(({ hazard, on }, index, all): Problem[] => {
    const noted = notedAt(quiltCase, hazard);
    const name = hazard.replaceAll('_', ' ');
    if (noted === undefined)
      return [
        {
          code: 'hazard-not-noted',
          severity: 'error',
          what: `${name} was dealt with on ${on}, but no look at this quilt notes any`,
          place: source.place(['treated', index, 'hazard']),
        },
      ];
    const same = all.findIndex((other) => other.hazard === hazard && other.on === on);
    if (same < index)
      return [
        {
          code: 'already-there',
          severity: 'error',
          what: `${name} is written down as dealt with on ${on} already: ${all[same]?.how}`,
          why: 'One thing done counts once, and of two accounts of it nobody could say which holds.',
          cure: 'Keep one of the two entries under "treated", or correct the date of one.',
          place: source.place(['treated', index]),
        },
      ];
    const { first } = noted;
    if (first.on === undefined || on >= first.on) return [];
    return [
      {
        code: 'dates-disagree',
        severity: 'error',
        what: `${name} was dealt with on ${on}, before it was first noted on ${first.on}`,
        why: 'What was done before a hazard was seen cannot have removed it.',
        place: source.place(['treated', index, 'on']),
      },
    ];
  });
