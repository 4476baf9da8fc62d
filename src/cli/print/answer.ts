import type { QuiltCase } from '../../casebook/model.ts';
import type { Answer, CheckNext, Reason, Said } from '../../decision/answer-model.ts';
import { FORECAST_NOTE } from '../../estimates/life/model.ts';
import { estimateRows } from './estimates.ts';
import { STANDING_WORDS, sentenceCase, TREATMENT_WORDS, USE_WORDS } from './labels.ts';
import { faint, heading, type PageStyle, paragraph, row } from './layout.ts';
import { planSentence } from './plan.ts';

/** A person keeps three reasons in mind; the rest are in --json and in the documents. */
const REASONS_SHOWN = 3;
const CHECKS_SHOWN = 6;

/** The answer as a page for a terminal, in the order a practitioner asks: what, why, why not otherwise, what it costs. */
export function printAnswer(answer: Answer, quiltCase: QuiltCase, style: PageStyle): string {
  return [
    ...title(answer, quiltCase, style),
    ...recommendation(answer, style),
    ...approval(answer, style),
    ...reasons(answer.reasons, style),
    ...ratherThan(answer, style),
    ...(answer.estimates === null
      ? []
      : [
          heading('What it would do', style),
          ...estimateRows(answer.estimates, style),
          paragraph(FORECAST_NOTE, style, '  '),
        ]),
    ...unknowns(answer, style),
    ...firmness(answer, style),
    ...list('Take care', answer.cautions, style),
    ...list('On these conditions', answer.conditions, style),
    ...list('Ask first', answer.asks, style),
    ...list('We can offer', answer.offers, style),
  ].join('\n');
}

function title(answer: Answer, { quilt }: QuiltCase, style: PageStyle): string[] {
  return [
    paragraph(quilt.title === undefined ? answer.case : `${answer.case}: ${quilt.title}`, style),
    faint(
      `as of ${answer.as_of}, rulebook ${answer.rulebook.version} (${answer.rulebook.digest.slice(0, 8)})`,
      style,
    ),
  ];
}

function recommendation(answer: Answer, style: PageStyle): string[] {
  const standing = STANDING_WORDS[answer.standing];
  const what = answer.treatment === null ? standing : `${standing}: ${TREATMENT_WORDS[answer.treatment]}`;
  const later = answer.standing === 'not_yet' && answer.treatment !== null ? ` once that is settled` : '';
  return [
    heading(`${sentenceCase(what)}${later}${answer.provisional ? ' (provisional)' : ''}`, style),
    ...(answer.treatment === null || answer.plan === null
      ? []
      : [paragraph(planSentence(answer.treatment, answer.plan), style, '  ')]),
    ...answer.refused_uses.map((use) =>
      paragraph(`Refused use: ${USE_WORDS[use] ?? use}. Years and plans below are for storage.`, style, '  '),
    ),
  ];
}

/** What has changed since an estimate was approved. */
function approval({ since_approval: since }: Answer, style: PageStyle): string[] {
  if (since === null) return [];
  const rise = (name: string, each: { approved: number; now: number; rise: number } | null): string[] =>
    each === null
      ? []
      : [
          `${name} ${each.now.toLocaleString('en-US')} against ${each.approved.toLocaleString('en-US')} approved (${each.rise > 0 ? '+' : ''}${Math.round(each.rise * 100)} %)`,
        ];
  const figures = [...rise('hours', since.hours), ...rise('price', since.price)].join('; ');
  const mark = Math.round(since.mark * 100);
  const verdict = since.needs_approval
    ? `That is a rise of more than ${mark} %: new written approval is needed before work goes on.`
    : `No rise of more than ${mark} %: the approval stands.`;
  return [
    heading(
      `Since the estimate was approved${since.approved_on === null ? '' : ` on ${since.approved_on}`}`,
      style,
    ),
    ...(figures === '' ? [] : [paragraph(`${sentenceCase(figures)}. ${verdict}`, style, '  ')]),
    ...since.changed
      .slice(0, 8)
      .map(({ label, from, to }) => paragraph(`${label}: ${to}, before ${from}`, style, '  - ')),
  ];
}

function reasons(all: readonly Reason[], style: PageStyle): string[] {
  if (all.length === 0) return [];
  return [
    heading('Because', style),
    ...all
      .slice(0, REASONS_SHOWN)
      .map(
        (reason, index) =>
          `${paragraph(reason.because, style, `  ${index + 1}. `)}\n     ${faint(`${reason.rule}; ${reason.evidence}`, style)}`,
      ),
  ];
}

function ratherThan(answer: Answer, style: PageStyle): string[] {
  if (answer.rather_than.length === 0) return [];
  return [
    heading(answer.treatment === null ? 'What was considered' : 'Rather than', style),
    ...answer.rather_than.map(({ treatment, sentence }) =>
      row(TREATMENT_WORDS[treatment], sentence, style, 30),
    ),
  ];
}

/** What is not known yet and could still change the answer. */
function unknowns(answer: Answer, style: PageStyle): string[] {
  if (answer.check_next !== null) return checks(answer.check_next, answer.provisional, style);
  const open = answer.open.slice(0, 8);
  if (open.length === 0)
    return answer.provisional ? [] : [heading('Nothing still unknown changes this answer', style)];
  const rest = answer.open.length - open.length;
  return [
    heading('Not known, and could change this', style),
    ...open.map((each) => paragraph(each.label, style, '  - ')),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}

/** The unknowns that could still change the answer, the most telling first. */
function checks(all: readonly CheckNext[], provisional: boolean, style: PageStyle): string[] {
  if (all.length === 0) {
    return [
      heading(
        provisional
          ? 'Nothing you could still find out from here changes this'
          : 'Nothing you could still find out changes this',
        style,
      ),
    ];
  }
  const lines = all.slice(0, CHECKS_SHOWN).map(({ label, could_lead_to: leads }) => {
    const ends = leads.map(
      ({ value, standing, treatment }) =>
        `${value}: ${treatment === null ? STANDING_WORDS[standing] : `${STANDING_WORDS[standing]}, ${TREATMENT_WORDS[treatment]}`}`,
    );
    return paragraph(`${label} (${ends.join('; ')})`, style, '  - ');
  });
  const rest = all.length - lines.length;
  return [heading('Find out next', style), ...lines, ...(rest > 0 ? [`  and ${rest} more`] : [])];
}

/** What would change the answer, and in how many readings of the same quilt it stands. */
function firmness(answer: Answer, style: PageStyle): string[] {
  const { would_change: changes, holds_in: holds } = answer;
  if (changes === null || holds === null) return [];
  const outcome = (standing: Answer['standing'], treatment: Answer['treatment']): string =>
    treatment === null
      ? STANDING_WORDS[standing]
      : `${STANDING_WORDS[standing]}, ${TREATMENT_WORDS[treatment]}`;
  const of = (who: 'client' | 're-check', name: string): string[] => {
    const own = changes.filter((each) => each.who === who);
    if (own.length === 0) return [];
    return [
      heading(name, style),
      ...own.map(({ changes: turns, standing, treatment }) =>
        paragraph(
          `${turns.map(({ label, from, to }) => `${label}: ${to} (now ${from})`).join('; and ')}. Then: ${outcome(standing, treatment)}.`,
          style,
          '  - ',
        ),
      ),
    ];
  };
  const otherwise = holds.otherwise.map(
    ({ times, standing, treatment }) => `${times} times ${outcome(standing, treatment)}`,
  );
  return [
    ...of(
      'client',
      answer.standing === 'decline'
        ? 'What would let us say yes, if you choose'
        : 'What you can choose that would change this',
    ),
    ...of('re-check', 'What a second look would have to find to change this'),
    ...(changes.length === 0 ? [heading('Nothing realistic that is known would change this', style)] : []),
    heading(`The same in ${holds.same} of ${holds.of} plausible readings of this quilt`, style),
    ...(otherwise.length === 0 ? [] : [paragraph(`Otherwise: ${otherwise.join('; ')}.`, style, '  ')]),
  ];
}

function list(name: string, all: readonly Said[], style: PageStyle): string[] {
  return all.length === 0
    ? []
    : [heading(name, style), ...all.map(({ text }) => paragraph(text, style, '  - '))];
}
