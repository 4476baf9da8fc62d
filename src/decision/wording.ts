import type { Treatment } from '../casebook/scales.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import { type FormatStyle, sayValue } from '../findings/say.ts';
import { decimal } from '../quantities/measure.ts';
import { formatMoney, whole } from '../quantities/rounding.ts';
import type { Operand } from '../rulebook/comparisons.ts';
import { comparison } from '../rulebook/comparisons.ts';
import type { Rule, Test } from '../rulebook/model.ts';
import { fillPlaceholders } from '../rulebook/placeholders.ts';
import { isOrdered, type Subject, type Subjects } from '../rulebook/subjects.ts';
import type { Alternative } from './alternatives.ts';
import type { RatherThan, Reason, SettledBy } from './answer-model.ts';
import type { Step } from './ranking.ts';
import { newHolesInOldCloth, type Option } from './situation.ts';

/** Says one fact in words and in the studio's units: "17 %", "between weak and failing", "4 1/2 in", "not known". */
type SayFact = (subject: Subject, fact: Fact) => string;

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
   * The label of a reason's finding (`loss`, or `planned.loss`) that is measured, counted or graded; undefined for a
   * choice, a yes or a no, and for what a plan specifies.
   */
  measured(finding: string): string | undefined {
    const planned = finding.startsWith('planned.');
    const subject = planned
      ? this.#subjects.find('planned', finding.slice('planned.'.length))
      : this.#subjects.find('finding', finding);
    if (subject === undefined || !isOrdered(subject) || subject.value === 'choice') return undefined;
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

/** Everything an answer says of facts and figures, in one studio's units and currency. */
export interface Formatter {
  readonly style: FormatStyle;
  readonly words: Words;
  readonly figures: FigureWords;
  length(fact: Fact): string;
}

export function formatterFor(subjects: Subjects, style: FormatStyle): Formatter {
  const bare = { ordered: false, unit: undefined, range: undefined };
  const bySubject = (subject: Subject, fact: Fact): string => {
    const { options } = subject;
    return sayValue({ ...bare, kind: subject.value, options, ordered: subject.ordered }, fact, style);
  };
  return {
    style,
    words: new Words(subjects, bySubject),
    figures: {
      count: whole,
      money: (value) => formatMoney(value, style.currency),
      years: (value) => {
        const shown = decimal(value, value < 10 ? 1 : 0);
        return `${shown} ${shown === '1' ? 'year' : 'years'}`;
      },
    },
    length: (fact) => sayValue({ ...bare, kind: 'length', options: [] }, fact, style),
  };
}

/** Says figures in the studio's way. */
interface FigureWords {
  count(value: number): string;
  money(value: number): string;
  years(value: number): string;
}

const holes = (count: number, say: FigureWords): string =>
  `${say.count(count)} new ${Math.round(count) === 1 ? 'hole' : 'holes'}`;

/** How the recommendation beats another plan on each step that is not a stage. */
const STEP_SENTENCES: Partial<Record<Step, (better: Option, worse: Option, say: FigureWords) => string>> = {
  work: () => 'Nothing that was found calls for it. Less work will do.',
  'wanted years': (better, worse, say) =>
    `Its next repair is expected in about ${say.years(worse.estimator.life().middle)}, sooner than wanted; that of what we recommend in about ${say.years(better.estimator.life().middle)}.`,
  'new holes': (better, worse, say) =>
    newHolesInOldCloth(worse) <= newHolesInOldCloth(better)
      ? `Of its ${holes(newHolesInOldCloth(worse), say)} more would fall in weaker cloth than of the ${say.count(newHolesInOldCloth(better))} of what we recommend.`
      : `It would make ${holes(newHolesInOldCloth(worse), say)} in old cloth; what we recommend makes ${newHolesInOldCloth(better) === 0 ? 'none' : say.count(newHolesInOldCloth(better))}.`,
  price: (better, worse, say) =>
    `It would make as many new holes as what we recommend, and cost about ${say.money(worse.estimator.price().likely)}, against ${say.money(better.estimator.price().likely)}.`,
  'order of treatments': () => 'It would do more to the quilt, with as many new holes and at the same price.',
};

/** What settled it where no rule did: why the recommendation comes before the next best treatment. */
const SETTLED_SENTENCES: Readonly<Record<SettledBy['step'], string>> = {
  work: 'No rule asks for more, and of the ways that are left this is the least work.',
  'wanted years':
    'No rule asks for more. Of the ways that are left, this is expected to last as long as wanted.',
  'new holes':
    'No rule asks for more. Of the ways that are left, this makes the fewest needle holes for what the cloth can bear.',
  price:
    'No rule asks for more. Of the ways that are left, this makes as few needle holes as any, and costs least.',
  'order of treatments': 'No rule asks for more, and of the ways that are left this does least to the quilt.',
};

export const settledBy = (step: Step, treatment: Treatment): SettledBy | null =>
  Object.hasOwn(SETTLED_SENTENCES, step)
    ? {
        step: step as SettledBy['step'],
        rather_than: treatment,
        sentence: SETTLED_SENTENCES[step as SettledBy['step']],
      }
    : null;

/** Why a treatment is not the recommendation: one sentence with the figures, and the rules behind it. */
export function ratherThan(
  alternative: Alternative,
  { recommended, own }: { readonly recommended: Option | undefined; readonly own: Option },
  reasons: readonly Reason[],
  say: { readonly figures: FigureWords; readonly words: Words },
): RatherThan {
  const { treatment, outcome, step } = alternative;
  const byRules = reasons
    .map((reason, index) => withFigures(reason, alternative.reasons[index]?.rule, say.words))
    .join(' ');
  const byStep =
    step !== undefined && recommended !== undefined
      ? STEP_SENTENCES[step]?.(recommended, own, say.figures)
      : undefined;
  return {
    treatment,
    outcome:
      outcome === 'possible' ? 'ranked_lower' : outcome === 'not_offered' ? 'not_offered' : 'ruled_out',
    sentence: byStep ?? (byRules === '' ? 'Nothing that was found speaks for it.' : byRules),
    reasons,
  };
}

const FIGURES_SHOWN = 2;

/**
 * A rule's sentence; where it names no figure, the findings it stands on follow in brackets: "… larger (share of seams
 * that have opened: 5 %)." What the sentence says already is not said twice.
 */
function withFigures({ because, findings }: Reason, rule: Rule | undefined, words: Words): string {
  if (rule?.because.includes('{') === true || !because.endsWith('.')) return because;
  const told = findings.flatMap(({ finding, value, test }) => {
    const label = test.startsWith('not ') ? undefined : words.measured(finding);
    // That there is none of it the sentence says in words.
    return label === undefined || because.includes(value) || value === '0 %' ? [] : [`${label}: ${value}`];
  });
  const shown = told.slice(0, FIGURES_SHOWN).join('; ');
  return shown === '' ? because : `${because.slice(0, -1)} (${shown}).`;
}
