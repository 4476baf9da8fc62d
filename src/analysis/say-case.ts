import type { Fact } from '../findings/fact.ts';
import { sayValue } from '../findings/say.ts';
import type { Subject } from '../rulebook/subjects.ts';
import type { Box, Space } from './boxes.ts';
import { samplesIn } from './cells.ts';
import { isSpecified, liesIn, PLAN_KINDS } from './plan-kinds.ts';

const STYLE = { units: 'inches', currency: '$' } as const;

/** "share of the top that is lost: 16 %"; what is as planned says so. */
export function sayFact(subject: Subject, fact: Fact): string {
  const options = subject.options.map((option) => ({ ...option, anchors: {}, likelihood: undefined }));
  const value = sayValue(
    { kind: subject.value, options, ordered: subject.ordered, unit: undefined, range: undefined },
    fact,
    STYLE,
  );
  const when = subject.kind === 'planned' ? ', once the repair is done' : '';
  return `${subject.label}${when}: ${value}`;
}

/** One case out of a box, a fact a line: known values before unknown ones, and a plan there really is. */
export function sayBox(box: Box, space: Space): string[] {
  const kind = PLAN_KINDS.flat().find((each) => liesIn(each, box, space));
  return [...box].flatMap(([key, cells]) => {
    const axis = space.axes.get(key);
    if (axis === undefined) return [];
    if (kind !== undefined && isSpecified(key)) return [sayFact(axis.subject, kind.facts[key])];
    const [first, second] = samplesIn(axis, cells);
    return [sayFact(axis.subject, first ?? second)];
  });
}
