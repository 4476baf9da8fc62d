import type { Fact, Facts } from '../findings/fact.ts';
import { comparison } from '../rulebook/comparisons.ts';
import type { Operand, Test } from '../rulebook/model.ts';
import { fillPlaceholders } from '../rulebook/placeholders.ts';
import { isOrdered, type Subject, type Subjects } from '../rulebook/subjects.ts';

/** Says one fact in words and in the studio's units: "17 %", "between weak and failing", "4 1/2 in", "not known". */
export type SayFact = (subject: Subject, fact: Fact) => string;

/** Turns tests and rules' sentences into words. Everything said of a finding goes through here. */
export class Words {
  readonly #subjects: Subjects;
  readonly #say: SayFact;

  constructor(subjects: Subjects, say: SayFact) {
    this.#subjects = subjects;
    this.#say = say;
  }

  subject(test: Test): Subject {
    const subject = this.#subjects.find(test.subject, test.id);
    if (subject === undefined) throw new Error(`no subject ${test.key}`);
    return subject;
  }

  fact(test: Test, facts: Facts): string {
    return this.#say(this.subject(test), facts[test.key]);
  }

  threshold(test: Test): string | null {
    const { operand } = test;
    if (operand === undefined) return null;
    return this.#operand(this.subject(test), operand, test.comparison === 'between' ? ' and ' : ' or ');
  }

  /** "share of the top that is lost is at most 15 %". */
  test(test: Test): string {
    const subject = this.subject(test);
    const threshold = this.threshold(test);
    return [
      planned(test, subject.label),
      comparison(test.comparison).words,
      ...(threshold === null ? [] : [threshold]),
    ].join(' ');
  }

  /**
   * The label of a reason's finding (`loss`, or `planned.loss`) that is measured, counted or set on a scale; undefined
   * for a choice, a yes or a no, and for what a plan specifies.
   */
  measured(finding: string): string | undefined {
    const planned = finding.startsWith('planned.');
    const subject = planned
      ? this.#subjects.find('planned', finding.slice('planned.'.length))
      : this.#subjects.find('finding', finding);
    if (subject === undefined || !isOrdered(subject)) return undefined;
    return planned ? `${subject.label}, once the repair is done` : subject.label;
  }

  /** A rule's sentence with its placeholders filled from the facts at hand. */
  sentence(text: string, facts: Facts): string {
    const filled = fillPlaceholders(text, this.#subjects, (subject) =>
      this.#say(subject, facts[`${subject.kind}.${subject.id}`]),
    );
    return text.startsWith('{') ? `${filled.charAt(0).toUpperCase()}${filled.slice(1)}` : filled;
  }

  #operand(subject: Subject, operand: Operand, between: string): string {
    if (Array.isArray(operand)) return operand.map((value) => this.#say(subject, value)).join(between);
    return this.#say(subject, operand as number | string | boolean);
  }
}

const planned = (test: Test, label: string): string =>
  test.subject === 'planned' ? `${label}, once the repair is done,` : label;
