import { TREATMENTS, USES } from '../../casebook/scales.ts';
import { sayRecommendation, USE_WORDS } from '../../decision/words.ts';
import { counted } from '../../documents/phrases.ts';
import { bold, type PageStyle, paragraph } from '../../documents/terminal/layout.ts';
import { ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { caseFiles } from '../../store/case-files.ts';
import { isUnread, type ListedCase, listCases, type UnreadCase } from '../../store/case-list.ts';
import { openStudio } from '../../store/studio.ts';
import { type Action, asOf, studioOptions, type Typed, textOption } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const wanted = filters(typed);
  const studio = await openStudio(studioOptions(typed));
  const { cases, drafts } = await caseFiles(studio.casesFolder);
  const day = asOf(typed, terminal);
  const all = await listCases(cases, studio, day, (count) =>
    terminal.err(`Deciding ${counted(count, 'case')} anew; the next list will come at once.`),
  );
  // A case that does not read may be any of them, so it stays in every list.
  const kept = all.filter((each) => isUnread(each) || wanted.every((holds) => holds(each)));
  const shown = typed.options.due === true ? kept.toSorted(longestDueFirst) : kept;
  const check = typed.options.check === true;
  const failed = shown.filter((each) => isUnread(each) || (each.differs ?? []).length > 0);
  const style = { color: terminal.color, width: terminal.width };
  if (typed.options.json === true) terminal.out(JSON.stringify(shown, null, 2));
  else if (check) {
    const sum = `${counted(shown.length, 'case')} checked, ${failed.length} not as expected`;
    terminal.out([...shown.map((each) => printChecked(each, style)), sum].join('\n'));
  } else {
    terminal.out(
      [...shown.map((each) => printListed(each, style)), counted(shown.length, 'case')].join('\n\n'),
    );
    for (const name of drafts) terminal.err(`${name}: an interview is not finished yet.`);
  }
  return check && failed.length > 0 ? 1 : 0;
};

/** What cannot be read comes last: nobody knows what it owes. */
const longestDueFirst = (a: ListedCase | UnreadCase, b: ListedCase | UnreadCase): number => {
  const day = (each: ListedCase | UnreadCase): string =>
    (isUnread(each) ? undefined : each.followup_due?.on) ?? '9999';
  return day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : 0;
};

type Filter = (each: ListedCase) => boolean;

const STANDINGS = ['go_ahead', 'not_yet', 'refer', 'decline'] as const;

function filters(typed: Typed): Filter[] {
  const standing = oneOfList(typed, 'standing', STANDINGS);
  const treatment = oneOfList(typed, 'treatment', [...TREATMENTS, 'none']);
  const use = oneOfList(typed, 'use', USES);
  return [
    ...(standing === undefined ? [] : [(each: ListedCase) => each.standing === standing]),
    ...(treatment === undefined ? [] : [(each: ListedCase) => (each.treatment ?? 'none') === treatment]),
    ...(use === undefined ? [] : [(each: ListedCase) => each.intended_use === use]),
    ...(typed.options.due === true ? [(each: ListedCase) => each.followup_due !== null] : []),
    ...(typed.options.undecided === true ? [(each: ListedCase) => !each.decided] : []),
  ];
}

/** An option that takes one of a few words; dashes and blanks do for underlines. */
function oneOfList<T extends string>(typed: Typed, name: string, words: readonly T[]): T | undefined {
  const given = textOption(typed, name);
  if (given === undefined) return undefined;
  const plain = given
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');
  const found = words.find((word) => word === plain);
  if (found !== undefined) return found;
  const near = suggest(given, words);
  throw new ProblemError([
    {
      code: 'not-an-option',
      severity: 'error',
      what: `--${name} is "${given}", which is not one of its choices`,
      cure: `Use one of ${words.join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}

/** One case as two lines: which quilt, and where it stands. */
export function printListed(each: ListedCase | UnreadCase, style: PageStyle): string {
  if (isUnread(each)) {
    return [bold(each.case, style), paragraph(`does not read: ${first(each)}`, style, '  ')].join('\n');
  }
  const { title, standing, treatment, provisional, intended_use: use, updated, followup_due: due } = each;
  const { hazards, unanswered } = each.safety;
  const facts = [
    ...(hazards.length === 0
      ? []
      : [`a hazard comes first (${hazards.map((one) => one.replaceAll('_', ' ')).join(', ')})`]),
    ...(unanswered.length === 0 ? [] : ['questions on safety not answered']),
    `${sayRecommendation({ standing, treatment }, ': ')}${provisional ? ' (provisional)' : ''}`,
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
