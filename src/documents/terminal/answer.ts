import type { QuiltCase } from '../../casebook/model.ts';
import type { Answer, CheckNext, HoldsIn, RuleText, WouldChange } from '../../decision/answer-model.ts';
import { stands } from '../../decision/choice.ts';
import { mainReasons } from '../../decision/reasons.ts';
import { sayRecommendation, TREATMENT_WORDS, USE_WORDS } from '../../decision/words.ts';
import { FORECAST_NOTE } from '../../estimates/life/model.ts';
import { counted, sentenceCase } from '../phrases.ts';
import { sinceApprovalRows } from './comparison.ts';
import { estimateRows, planSentence } from './estimates.ts';
import { faint, heading, type PageStyle, paragraph, row } from './layout.ts';

const CHECKS_SHOWN = 6;

/** The answer as a page for a terminal, in the order a practitioner asks: what, why, why not otherwise, what it costs. */
export function printAnswer(answer: Answer, quiltCase: QuiltCase, style: PageStyle): string {
  return [
    ...title(answer, quiltCase, style),
    ...safetyRows(answer, style),
    ...recommendation(answer, style),
    ...sinceApprovalRows(answer, style),
    ...because(answer, style),
    ...ratherThan(answer, style),
    ...(answer.estimates === null
      ? []
      : [
          heading('What it would do', style),
          ...estimateRows(answer.estimates, style),
          paragraph(FORECAST_NOTE, style, '  '),
        ]),
    ...chosenRows(answer, style),
    ...unknowns(answer, style),
    ...firmnessRows(answer, style),
    ...list(
      'Take care',
      answer.cautions.filter(({ first }) => !first),
      style,
    ),
    ...list('On these conditions', answer.conditions, style),
    ...list('Ask first', answer.asks, style),
    ...list('Ask others', answer.ask_others, style),
    ...list('We can offer', answer.offers, style),
  ].join('\n');
}

function title(answer: Answer, { quilt }: QuiltCase, style: PageStyle): string[] {
  return [
    paragraph(quilt.title === undefined ? answer.case : `${answer.case}: ${quilt.title}`, style),
    faint(
      paragraph(
        `as of ${answer.as_of}, rulebook ${answer.rulebook.version} (${answer.rulebook.digest.slice(0, 8)})`,
        style,
      ),
      style,
    ),
  ];
}

function recommendation(answer: Answer, style: PageStyle): string[] {
  const what = sayRecommendation(answer, ': ');
  const later = answer.standing === 'not_yet' && answer.treatment !== null ? ` once that is settled` : '';
  return [
    heading(`${sentenceCase(what)}${later}${answer.provisional ? ' (provisional)' : ''}`, style),
    ...(answer.treatment === null || answer.plan === null
      ? []
      : [paragraph(planSentence(answer.treatment, answer.plan), style, '  ')]),
    ...answer.cautions.filter(({ first }) => first).map(({ text }) => paragraph(text, style, '  ')),
    ...answer.refused_uses.map((use) =>
      paragraph(`Refused use: ${USE_WORDS[use] ?? use}. Years and plans below are for storage.`, style, '  '),
    ),
  ];
}

/** What stands in the way of touching the quilt comes before everything else. */
export function safetyRows({ safety }: Pick<Answer, 'safety'>, style: PageStyle): string[] {
  const { stops, unanswered, until_answered } = safety;
  const each = (text: (stop: (typeof stops)[number]) => string | null): string[] =>
    [...new Set(stops.flatMap((stop) => text(stop) ?? []))].map((said) => paragraph(said, style, '  - '));
  return [
    ...(stops.length === 0
      ? []
      : [
          heading('A hazard comes first', style),
          ...each(({ meanwhile }) => meanwhile),
          paragraph('Settled by:', style, '  '),
          ...each(({ settled_by }) => settled_by),
          paragraph('Ask:', style, '  '),
          ...each(({ ask_others }) => ask_others),
          paragraph(
            'Once it is done and confirmed, write it down with "mendwise treated". Looking again does not lift it.',
            style,
            '  ',
          ),
        ]),
    ...(unanswered.length === 0
      ? []
      : [
          heading('Questions on safety come first', style),
          ...until_answered.map((text) => paragraph(text, style, '  ')),
          ...unanswered.map(({ label }) => paragraph(sentenceCase(label), style, '  - ')),
        ]),
  ];
}

/** The rest of the reasons are in --json and in the documents. */
function because({ reasons, settled_by: settled }: Answer, style: PageStyle): string[] {
  const main = mainReasons(reasons);
  const lines = main.map(
    (reason, index) =>
      `${paragraph(reason.because, style, `  ${index + 1}. `)}\n${faint(paragraph(`${reason.rule}; ${reason.evidence}`, style, '     '), style)}`,
  );
  const step = settled === null ? [] : [paragraph(settled.sentence, style, `  ${main.length + 1}. `)];
  return lines.length + step.length === 0 ? [] : [heading('Because', style), ...lines, ...step];
}

function ratherThan(answer: Answer, style: PageStyle): string[] {
  if (answer.rather_than.length === 0) return [];
  return [
    heading(answer.treatment === null ? 'What was considered' : 'Rather than', style),
    ...answer.rather_than.map(({ treatment, sentence }, index, all) => {
      const said = all.slice(0, index).find((other) => other.sentence === sentence);
      const why =
        said === undefined ? sentence : `For the same reason as “${TREATMENT_WORDS[said.treatment]}”.`;
      return row(TREATMENT_WORDS[treatment], why, style, 30);
    }),
  ];
}

/** What is not known yet and could still change the answer. */
function unknowns(answer: Answer, style: PageStyle): string[] {
  if (answer.check_next !== null) return checks(answer.check_next, answer.provisional, style);
  const open = answer.open.slice(0, 8);
  if (open.length === 0)
    return answer.provisional
      ? []
      : [heading('Nothing still unknown would change the treatment advised', style)];
  const rest = answer.open.length - open.length;
  return [
    heading('Not known, and could change this', style),
    ...open.map((each) => paragraph(sentenceCase(each.label), style, '  - ')),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}

/** What each answer would lead to; answers that lead to the same stand together. */
function ends(leads: CheckNext['could_lead_to']): string[] {
  const ways = new Map<string, string[]>();
  for (const each of leads) {
    const end = sayRecommendation(each);
    ways.set(end, [...(ways.get(end) ?? []), `“${each.value}”`]);
  }
  return [...ways].map(([end, values]) => `${values.join(' or ')} would lead to: ${end}`);
}

/** The unknowns that could still change the answer, the most telling first. */
function checks(all: readonly CheckNext[], provisional: boolean, style: PageStyle): string[] {
  if (all.length === 0) {
    return [
      heading(
        provisional
          ? 'What is still open cannot be found out from here'
          : 'Nothing still unknown would change the treatment advised',
        style,
      ),
    ];
  }
  const lines = all.slice(0, CHECKS_SHOWN).map(({ label, how, could_lead_to: leads }) => {
    return paragraph(`${sentenceCase(label)}. ${how} ${ends(leads).join('; ')}.`, style, '  - ');
  });
  const rest = all.length - lines.length;
  return [heading('Find out next', style), ...lines, ...(rest > 0 ? [`  and ${rest} more`] : [])];
}

function list(name: string, all: readonly RuleText[], style: PageStyle): string[] {
  return all.length === 0
    ? []
    : [heading(name, style), ...all.map(({ text }) => paragraph(text, style, '  - '))];
}

/** What was chosen instead of the recommendation: what is done, what it would do, and what is said of it alone. */
function chosenRows(answer: Answer, style: PageStyle): string[] {
  const { chosen, cautions, conditions, asks } = answer;
  if (chosen === null) return [];
  const { treatment, on, unweighed, plan, estimates } = chosen;
  const what = TREATMENT_WORDS[treatment];
  if (!stands(chosen))
    return [
      heading(`Chosen on ${on}, and to be chosen anew: ${what}`, style),
      paragraph('The choice was not weighed against this:', style, '  '),
      ...unweighed.map(({ text }) => paragraph(text, style, '  - ')),
    ];
  const said = new Set([...cautions, ...conditions, ...asks].map(({ text }) => text));
  const all = [...chosen.cautions, ...chosen.conditions, ...chosen.asks];
  const own = all.filter(({ text }) => !said.has(text));
  return [
    heading(`Chosen instead on ${on}: ${what}`, style),
    paragraph(planSentence(treatment, plan), style, '  '),
    ...estimateRows(estimates, style),
    // It stands beside the years of the advice, where there are any.
    ...(answer.estimates === null ? [paragraph(FORECAST_NOTE, style, '  ')] : []),
    ...own.map(({ text }) => paragraph(text, style, '  - ')),
  ];
}

/** What would change the answer, and in how many readings of the same quilt it stands; nothing where it was not asked. */
function firmnessRows(answer: Answer, style: PageStyle): string[] {
  const { would_change: changes, holds_in: holds } = answer;
  if (changes === null || holds === null) return [];
  const otherwise = holds.otherwise.map(
    (each) => `${counted(each.times, 'time')} ${sayRecommendation(each)}`,
  );
  return [
    ...(answer.standing === 'decline' ? waysToYes(answer, changes, style) : turns(answer, changes, style)),
    heading(`The same in ${holds.same} of ${holds.of} simulated re-readings of this quilt`, style),
    ...(holds.unknown === 0
      ? []
      : [paragraph(`${sentenceCase(turnOnUnknown(holds))} on what is not known yet.`, style, '  ')]),
    ...(otherwise.length === 0 ? [] : [paragraph(`Otherwise: ${otherwise.join('; ')}.`, style, '  ')]),
  ];
}

const turnOnUnknown = ({ of, same, unknown }: HoldsIn): string =>
  unknown === of - same
    ? `${unknown === 1 ? 'the one' : `all ${unknown}`} that differ${unknown === 1 ? 's turns' : ' turn'}`
    : `${unknown} of the ${of - same} that differ turn${unknown === 1 ? 's' : ''}`;

/** What is said where no finding would change it: a hazard that stands is not among findings, and is what would. */
const nothingElse = ({ safety }: Answer, what: string, style: PageStyle): string =>
  heading(
    safety.stops.length > 0
      ? `Nothing but what is done about the hazard, and confirmed, would ${what}`
      : `Nothing realistic that is known would ${what}`,
    style,
  );

function turns(answer: Answer, changes: readonly WouldChange[], style: PageStyle): string[] {
  if (changes.length === 0) return [nothingElse(answer, 'change this', style)];
  return [
    ...headed('What you can choose that would change this', by(changes, 'client'), style),
    ...headed('What a second look would have to find to change this', by(changes, 're-check'), style),
  ];
}

/** For a decline: everything that leads to work under one heading, whoever chooses or finds it, and then what does not. */
function waysToYes(answer: Answer, changes: readonly WouldChange[], style: PageStyle): string[] {
  const yes = changes.filter(({ standing }) => standing === 'go_ahead');
  const other = changes.filter(({ standing }) => standing !== 'go_ahead');
  return [
    ...(yes.length === 0
      ? [nothingElse(answer, 'let us say yes', style)]
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
    `${sentenceCase(changes.map(({ label, from, to }) => `${label}: ${to} (now ${from})`).join('; and '))}. Then: ${sayRecommendation(then)}.`,
    style,
    '  - ',
  );
