import type { Figures } from '../figures/model.ts';
import type { Fact } from '../findings/fact.ts';
import { sayValue } from '../findings/say.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import type { ProblemCode } from '../problems/codes.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import type { Subject, Subjects } from '../rulebook/subjects.ts';
import { boxesOf, isPossible, liesIn } from './boxes.ts';
import { axesOf, type Box, type Space, samplesIn } from './cells.ts';
import { isSpecified, PLAN_KINDS } from './plan-kinds.ts';
import { relationsOf } from './relations.ts';

/** A rulebook laid out for analysis: the rules in force on a day, and the cells their tests cut. */
export interface RulebookModel {
  /** Every rule, in force or not. */
  readonly book: Rulebook;
  readonly rules: readonly Rule[];
  readonly asOf: string;
  readonly vocabulary: Vocabulary;
  readonly figures: Figures;
  readonly subjects: Subjects;
  readonly space: Space;
  /** The ways in which a rule's condition is true; worked out once. */
  waysTrue(rule: Rule): readonly Box[];
}

/** Something the analysis has to say of one rule or of several together. */
export interface Diagnostic {
  readonly code: ProblemCode;
  /** An error keeps the book from meaning what it says; a warning may be meant; a note is for information. */
  readonly severity: 'error' | 'warning' | 'note';
  readonly what: string;
  readonly why?: string;
  readonly cure?: string;
  /** The rules concerned, each printed with its place. */
  readonly rules: readonly Rule[];
  /** A case in which it shows, a fact a line, in words. Empty where no case is needed to see it. */
  readonly example: readonly string[];
}

/** What of the book this kind of analysis left out, in one sentence each. */
export interface CheckResult {
  readonly remarks: readonly Diagnostic[];
  readonly notCovered: readonly string[];
}

export type Check = (examined: RulebookModel) => CheckResult;

export function examine(
  book: Rulebook,
  knowledge: { readonly vocabulary: Vocabulary; readonly figures: Figures; readonly subjects: Subjects },
  asOf: string,
): RulebookModel {
  const { vocabulary, figures, subjects } = knowledge;
  const { rules } = inForce(book, asOf);
  const space: Space = { axes: axesOf(rules, subjects), relations: relationsOf(vocabulary, figures) };
  const ways = new Map<Rule, readonly Box[]>();
  return {
    book,
    rules,
    asOf,
    vocabulary,
    figures,
    subjects,
    space,
    waysTrue: (rule) => {
      const known = ways.get(rule);
      if (known !== undefined) return known;
      const found = boxesOf(rule.when, 'true', space).filter((box) => isPossible(box, space));
      ways.set(rule, found);
      return found;
    },
  };
}

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
