import type { Recommendation } from '../decision/answer-model.ts';
import { type FormatStyle, sayValue } from '../findings/say.ts';
import { factOfOption, type Vocabulary } from '../findings/vocabulary.ts';
import type { Disagreement } from './disagreement.ts';
import type { Grading } from './grading.ts';

/** Words the pages need that live above this room. */
export interface Formatter extends FormatStyle {
  readonly vocabulary: Vocabulary;
  readonly standing: Readonly<Record<Recommendation['standing'], string>>;
  readonly treatment: Readonly<Record<NonNullable<Recommendation['treatment']>, string>>;
}

/** "go ahead: tie it", "decline". */
export const sayRecommendation = ({ standing, treatment }: Recommendation, formatter: Formatter): string =>
  treatment === null
    ? formatter.standing[standing]
    : `${formatter.standing[standing]}: ${formatter.treatment[treatment]}`;

/** One answer in words. */
export const sayGrading = ({ value, def }: Grading, formatter: Formatter): string => {
  if (def === undefined) return String(value);
  const fact = typeof value === 'string' ? (factOfOption(def, value) ?? value) : value;
  return sayValue(def, fact, formatter);
};

/** Units named before the rest are counted. */
const NAMED = 6;

/** What was said, a line each: one for all helpers where a single answer is at stake, else one for each two of them. */
export const sayPairs = ({ pairs }: Disagreement, formatter: Formatter): string[] => {
  const answers = pairs.flatMap(({ a, b, topic }) =>
    topic.differences.map((each) => ({ path: each.a.path.join('.'), a, b, each })),
  );
  const single = new Set(answers.map(({ path }) => path)).size === 1;
  if (!single) return pairs.map((pair) => sayPair(pair, formatter));
  const said = new Map<string, string>();
  for (const { a, b, each } of answers) {
    said.set(a, sayGrading(each.a, formatter));
    said.set(b, sayGrading(each.b, formatter));
  }
  return [[...said].map(([helper, value]) => `${helper} says ${value}`).join(', ')];
};

/** Two helpers' answers place by place: "A5 sound or hole". */
const sayPair = ({ a, b, topic }: Disagreement['pairs'][number], formatter: Formatter): string => {
  const each = topic.differences.map(
    ({ thing, label, a: one, b: other }) =>
      `${(thing === '' ? label : thing).replace(/^unit /, '')} ${sayGrading(one, formatter)} or ${sayGrading(other, formatter)}`,
  );
  const rest = each.length - NAMED;
  const listed = [...each.slice(0, NAMED), ...(rest > 0 ? [`and ${rest} more`] : [])].join('; ');
  return `${a} or ${b}: ${listed}`;
};

/** What a disagreement is about: "how fragile the backing is", "the rust print: how fragile the fabric is". */
export const topicName = ({ label, pairs }: Disagreement): string => {
  const things = new Set(pairs.flatMap(({ topic }) => topic.differences.map(({ thing }) => thing)));
  const [thing = ''] = things;
  return things.size === 1 && thing !== '' && !/^unit /.test(thing) ? `${thing}: ${label}` : label;
};

/** Signs to look for, by way of looking, of the answers two helpers gave: what to hold the cloth against. */
export const anchorsOf = (
  disagreement: Disagreement,
  formatter: Formatter,
): readonly {
  readonly answer: string;
  readonly signs: readonly { readonly how: string; readonly sign: string }[];
}[] => {
  const given = new Map<string, { answer: string; signs: { how: string; sign: string }[] }>();
  for (const { topic } of disagreement.pairs) {
    for (const { a, b, def } of topic.differences) {
      for (const { value } of [a, b]) {
        const option = def?.options.find((one) => one.value === value);
        if (option === undefined || given.has(option.value)) continue;
        const graded =
          def?.kind === 'grade' ? formatter.vocabulary.grades.find((one) => one.value === value) : option;
        const anchors = { ...graded?.anchors, ...option.anchors };
        given.set(option.value, {
          answer: option.label,
          signs: Object.entries(anchors).map(([how, sign]) => ({ how, sign })),
        });
      }
    }
  }
  return [...given.values()];
};

/** How to look, as the vocabulary tells it; undefined where there is nothing to tell. */
export const howToLook = ({ pairs }: Disagreement): string | undefined =>
  pairs[0]?.topic.differences[0]?.def?.how;
