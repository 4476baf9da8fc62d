import type { ListedCase, UnreadCase } from '../run/list-case.ts';
import { isUnread } from '../run/list-case.ts';
import { STANDING_WORDS, TREATMENT_WORDS, USE_WORDS } from './labels.ts';
import { bold, type PageStyle, paragraph } from './layout.ts';

/** One case as two lines: which quilt, and where it stands. */
export function printListed(each: ListedCase | UnreadCase, style: PageStyle): string {
  if (isUnread(each)) {
    return [bold(each.case, style), paragraph(`does not read: ${first(each)}`, style, '  ')].join('\n');
  }
  const { title, standing, treatment, provisional, intended_use: use, updated, followup_due: due } = each;
  const what = treatment === null ? '' : `: ${TREATMENT_WORDS[treatment]}`;
  const facts = [
    `${STANDING_WORDS[standing]}${what}${provisional ? ' (provisional)' : ''}`,
    use === null ? 'use not known' : (USE_WORDS[use] ?? use),
    ...(updated === null ? [] : [`updated ${updated}`]),
    ...(due === null ? [] : [`follow-up at ${due.months} months due since ${due.on}`]),
  ];
  const name = title === null ? each.case : `${each.case}: ${title}`;
  return [bold(paragraph(name, style), style), paragraph(facts.join('; '), style, '  ')].join('\n');
}

/** How a case came out against what it expects. */
export function printChecked(each: ListedCase | UnreadCase, style: PageStyle): string {
  const line = (word: string, text: string): string => paragraph(text, style, word, '    ');
  if (isUnread(each)) return line('unread  ', `${each.case}: ${first(each)}`);
  if (each.differs === null) return line('-       ', `${each.case} expects nothing`);
  if (each.differs.length === 0) return line('holds   ', each.case);
  return line('differs ', `${each.case}: ${each.differs.join('; ')}`);
}

const first = ({ problem: { what, place } }: UnreadCase): string =>
  place === undefined ? what : `${what} (${place.file}:${place.line}:${place.column})`;
