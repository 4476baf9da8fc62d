import type { Fact } from '../findings/fact.ts';
import { type SayingStyle, sayValue } from '../findings/say.ts';
import { decimal } from '../quantities/measure.ts';
import { formatMoney } from '../quantities/money.ts';
import { whole } from '../quantities/whole.ts';
import type { Subject, Subjects } from '../rulebook/subjects.ts';
import type { FigureWords } from './rather-than.ts';
import { Words } from './words.ts';

/** Everything an answer says of facts and figures, in one studio's units and currency. */
export interface Saying {
  readonly style: SayingStyle;
  readonly words: Words;
  readonly figures: FigureWords;
  length(fact: Fact): string;
}

export function sayingFor(subjects: Subjects, style: SayingStyle): Saying {
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
