import type { Completed } from '../casebook/model.ts';
import { GRADES, type Treatment, type Use } from '../casebook/scales.ts';
import { type Answer, type AnswerOption, type Way, wayOf } from '../decision/answer-model.ts';
import { agreedOption, doneOption } from '../decision/choice.ts';
import type { Decision } from '../decision/decide.ts';
import type { Option, Situation } from '../decision/situation.ts';
import type { Figures } from '../figures/model.ts';
import { type Fact, type Facts, lowest } from '../findings/fact.ts';
import { type Sayable, sayValue } from '../findings/say.ts';
import type { SurveyedFamily } from '../findings/surveyed.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { formatLength } from '../quantities/length.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import { formatMoney } from '../quantities/rounding.ts';
import { clean, counted, dateWriter, daysAfter } from './phrases.ts';
import type { TextKey } from './slots.ts';

const WEAK = GRADES.indexOf('weak');

/** The papers with everything sections keep asking of them: words, figures and names in the studio's way. */
export class DocumentContext {
  readonly papers: DocumentInput;
  readonly answer: Answer;
  readonly situation: Situation;
  readonly facts: Facts;
  readonly #common: Fillings;
  readonly #date: (date: string) => string;

  constructor(papers: DocumentInput) {
    this.papers = papers;
    this.answer = papers.decision.answer;
    this.situation = papers.decision.situation;
    this.facts = this.situation.facts;
    this.#date = dateWriter(papers.studio.language);
    const { client, quilt } = this.situation.quiltCase;
    this.#common = {
      studio: clean(papers.studio.name ?? 'our workroom'),
      client: clean(client.ref ?? ''),
      quilt: quilt.title === undefined ? 'this quilt' : `“${clean(quilt.title)}”`,
      case: clean(this.answer.case),
      date: this.date(this.answer.as_of),
      valid_until: this.date(this.validUntil),
    };
  }

  get validUntil(): string {
    return daysAfter(this.answer.as_of, this.papers.studio.validDays);
  }

  get quiltTitle(): string {
    return this.#common.quilt ?? '';
  }

  /** The plan of the recommendation, where there is one. */
  get recommended(): Option | undefined {
    const { best } = this.papers.decision.outcome;
    return this.answer.treatment === null || best === undefined ? undefined : this.situation.options[best];
  }

  /** The plan the work goes by: of what was chosen last, else of the recommendation; none where there is neither. */
  get agreed(): Option | undefined {
    return agreedOption(this.papers.decision)?.option;
  }

  /** The same as the answer tells it, with what our rules say of it. */
  get way(): Way | undefined {
    return wayOf(this.answer);
  }

  /** What was done, where the work is finished by the day of the paper: the plan, and the option as the answer tells it. */
  get finished():
    | { readonly option: Option; readonly told: AnswerOption; readonly by: Completed }
    | undefined {
    const { completed } = this.situation.quiltCase;
    const option = doneOption(this.papers.decision, this.situation.asOf)?.option;
    const told = this.answer.options.find(({ treatment }) => treatment === option?.plan.treatment);
    if (completed === undefined || option === undefined || told === undefined) return undefined;
    return { option, told, by: completed };
  }

  /** A text of texts.yaml as one paragraph. */
  say(key: TextKey, fillings: Fillings = {}): string {
    return this.items(key, fillings).join(' ');
  }

  /** A text of texts.yaml, item by item. */
  items(key: TextKey, fillings: Fillings = {}): readonly string[] {
    return this.papers.texts
      .list(key, { ...this.#common, ...fillings })
      .map((text) => clean(text).replace(/ ,/g, ','));
  }

  treatment(treatment: Treatment): string {
    return this.say(`treatments.${treatment}`);
  }

  use(use: Use): string {
    return this.say(`uses.${use}`);
  }

  date(date: string): string {
    return this.#date(date);
  }

  money(amount: number): string {
    return formatMoney(amount, clean(this.papers.studio.currency));
  }

  length(inches: number): string {
    return formatLength(inches, this.papers.studio.units);
  }

  /** "22 blocks", "1 patch": what this quilt is counted in. */
  units(count: number): string {
    const [one, many] =
      this.situation.quilt.counting === 'patches' ? ['patch', 'patches'] : ['block', 'blocks'];
    return counted(count, one, many);
  }

  /** A fabric by the name it was surveyed under. */
  fabric(letter: string): string {
    return clean(this.situation.quilt.families[letter]?.name ?? letter);
  }

  /** Fabrics graded weak or worse. */
  get weakFabrics(): readonly SurveyedFamily[] {
    return Object.values(this.situation.quilt.families).filter(({ fragility }) => lowest(fragility) >= WEAK);
  }

  /** A finding of the quilt in words; "not known" where it is not. */
  finding(id: string): string {
    return this.value(id, this.facts[`finding.${id}`]);
  }

  value(id: string, fact: Fact): string {
    const def = this.papers.vocabulary.findings.get(id);
    return def === undefined ? 'not known' : this.formatter(def, fact);
  }

  /** A fact in the words of its definition, in the studio's units. */
  formatter(def: Sayable, fact: Fact): string {
    return sayValue(def, fact, this.papers.studio);
  }

  /** A grade in words, whatever it is a grade of. */
  grade(fact: Fact): string {
    return this.value('governing_fragility', fact);
  }
}

/** How a studio names itself and writes figures, from studio.yaml. */
export interface StudioCard {
  readonly name: string | undefined;
  readonly contact: string | undefined;
  /** A picture as a data address. */
  readonly logo: string | undefined;
  /** BCP 47 tag for dates. */
  readonly language: string;
  readonly units: MeasureSystem;
  readonly currency: string;
  readonly validDays: number;
}

/** A photograph named in a case. `data` is its data address; undefined where there is no such picture file. */
export interface Photo {
  readonly file: string;
  readonly of: string | undefined;
  readonly when: string | undefined;
  readonly data: string | undefined;
}

/** Everything a document is made from. */
export interface DocumentInput {
  readonly decision: Decision;
  readonly vocabulary: Vocabulary;
  readonly figures: Figures;
  readonly texts: TextCatalog;
  readonly studio: StudioCard;
  readonly photos: readonly Photo[];
}

/** Values for the names in braces. */
type Fillings = Readonly<Record<string, string>>;

/** The practitioner's words, read and checked. */
export interface TextCatalog {
  /** Every paragraph or item of a text, filled. */
  list(key: TextKey, fillings: Fillings): readonly string[];
}

const PLACEHOLDER = /\{([^{}]*)\}/g;

/** The names in braces, with where each begins in the text. */
export const placeholders = (text: string): { readonly name: string; readonly at: number }[] =>
  [...text.matchAll(PLACEHOLDER)].map((match) => ({ name: match[1] ?? '', at: match.index }));

/** One pass: what a name is filled with is never read for names again. */
const fill = (text: string, fillings: Fillings): string =>
  text.replace(PLACEHOLDER, (whole, name: string) =>
    Object.hasOwn(fillings, name) ? (fillings[name] ?? whole) : whole,
  );

export const textsOf = (byKey: ReadonlyMap<string, readonly string[]>): TextCatalog => ({
  list: (key, fillings) => (byKey.get(key) ?? []).map((text) => fill(text, fillings)),
});
