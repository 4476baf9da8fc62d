import type { Answer, WouldChange } from '../../decision/answer-model.ts';
import { counted, outcomeWords, sentenceCase } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';

/** What would change the answer, and in how many readings of the same quilt it stands; nothing where it was not asked. */
export function firmnessRows(answer: Answer, style: PageStyle): string[] {
  const { would_change: changes, holds_in: holds } = answer;
  if (changes === null || holds === null) return [];
  const otherwise = holds.otherwise.map((each) => `${counted(each.times, 'time')} ${outcomeWords(each)}`);
  return [
    ...(answer.standing === 'decline' ? waysToYes(changes, style) : turns(changes, style)),
    heading(`The same in ${holds.same} of ${holds.of} simulated re-readings of this quilt`, style),
    ...(otherwise.length === 0 ? [] : [paragraph(`Otherwise: ${otherwise.join('; ')}.`, style, '  ')]),
  ];
}

function turns(changes: readonly WouldChange[], style: PageStyle): string[] {
  if (changes.length === 0) return [heading('Nothing realistic that is known would change this', style)];
  return [
    ...headed('What you can choose that would change this', by(changes, 'client'), style),
    ...headed('What a second look would have to find to change this', by(changes, 're-check'), style),
  ];
}

/** For a decline: everything that leads to work under one heading, whoever chooses or finds it, and then what does not. */
function waysToYes(changes: readonly WouldChange[], style: PageStyle): string[] {
  const yes = changes.filter(({ standing }) => standing === 'go_ahead');
  const other = changes.filter(({ standing }) => standing !== 'go_ahead');
  return [
    ...(yes.length === 0
      ? [heading('Nothing realistic that is known would let us say yes', style)]
      : [
          heading('What would let us say yes', style),
          ...led('If the client chooses:', by(yes, 'client'), style),
          ...led('If a second look finds:', by(yes, 're-check'), style),
        ]),
    ...headed('What would change this, but not to a yes', other, style),
  ];
}

const by = (changes: readonly WouldChange[], who: WouldChange['who']): WouldChange[] =>
  changes.filter((each) => each.who === who);

const headed = (name: string, changes: readonly WouldChange[], style: PageStyle): string[] =>
  changes.length === 0 ? [] : [heading(name, style), ...changes.map((each) => line(each, style))];

const led = (name: string, changes: readonly WouldChange[], style: PageStyle): string[] =>
  changes.length === 0 ? [] : [paragraph(name, style, '  '), ...changes.map((each) => line(each, style))];

const line = ({ changes, ...then }: WouldChange, style: PageStyle): string =>
  paragraph(
    `${sentenceCase(changes.map(({ label, from, to }) => `${label}: ${to} (now ${from})`).join('; and '))}. Then: ${outcomeWords(then)}.`,
    style,
    '  - ',
  );
