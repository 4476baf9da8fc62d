import type { SaidCondition, SaidRule } from '../rulebook/say-rule.ts';
import type { Block, Section, Sheet } from './model.ts';

/** A rule with what is known of its use. Names are those of cases. */
export interface BookEntry {
  readonly said: SaidRule;
  /** Earlier wordings, latest first: until when, why it was changed, and what stood where. */
  readonly history: readonly {
    readonly until: string;
    readonly reason: string;
    readonly changed: readonly string[];
  }[];
  readonly provedBy: readonly string[];
  /** In how many of the studio's cases it was true, and how often a practitioner decided against it. */
  readonly fired: number;
  readonly overridden: number;
}

export interface BookFacts {
  readonly studio: string | undefined;
  readonly contact: string | undefined;
  readonly asOf: string;
  readonly version: string;
  readonly digest: string;
  readonly cases: number;
}

const STAGE_TITLES: Readonly<Record<string, string>> = {
  units: 'What is done with each unit',
  stop: 'What stops the work',
  refer: 'What belongs with somebody else',
  capability: 'What the cloth can bear',
  extent: 'How much is gone',
  structure: 'What holds the quilt together',
  joining: 'How the layers are held',
  means: 'By what means, and on what terms',
};

/** The whole rulebook as one document to print and review: stage by stage, each rule as a sentence with what it rests on. */
export function rulebookBook(entries: readonly BookEntry[], facts: BookFacts): Sheet {
  const stages = [...new Set(entries.map(({ said }) => said.stage))];
  return {
    title: 'The rules we work by',
    studio: facts.studio,
    contact: facts.contact,
    logo: undefined,
    particulars: [
      { name: 'In force on', text: facts.asOf },
      { name: 'Rulebook', text: `${facts.version}, ${facts.digest}` },
      { name: 'Rules', text: String(entries.length) },
      { name: 'Cases looked at', text: String(facts.cases) },
    ],
    sections: stages.map(
      (stage): Section => ({
        title: STAGE_TITLES[stage] ?? stage,
        blocks: entries.filter(({ said }) => said.stage === stage).flatMap(entryBlocks),
      }),
    ),
    foot: 'The rules advise; a qualified person decides and signs. Please write what you would change beside the rule and why.',
  };
}

function entryBlocks({ said, history, provedBy, fired, overridden }: BookEntry): Block[] {
  const row = (name: string, text: string) => ({ name, text });
  return [
    { kind: 'subheading', text: said.title },
    { kind: 'paragraph', text: `When ${sentence(said.when)}: ${said.does.map(closed).join(' ')}` },
    {
      kind: 'facts',
      caption: `What "${said.rule}" rests on`,
      rows: [
        row('Because', said.because),
        row(
          'Evidence',
          said.source.startsWith(said.evidence) ? said.source : `${said.evidence}; ${said.source}`,
        ),
        row('Name', said.rule),
        row('Since', said.until === null ? said.since : `${said.since}, until ${said.until}`),
        ...(said.yields_to.length === 0 ? [] : [row('Gives way to', said.yields_to.join(', '))]),
        row('Worked cases', provedBy.length === 0 ? 'none' : few(provedBy)),
        row('Use', `true in ${fired} of the studio’s cases; decided against ${overridden} times`),
        ...history.map(({ until, reason, changed }) =>
          row(`Until ${until}`, [...changed, `Changed because: ${reason}`].join('. ')),
        ),
      ],
    },
  ];
}

/** More names than this fill a page and say no more. */
const MOST = 6;
const few = (names: readonly string[]): string =>
  names.slice(0, MOST).join(', ') + (names.length > MOST ? ` and ${names.length - MOST} more` : '');

const closed = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;

/** A condition as one sentence; what belongs together stands in brackets. */
export function sentence(condition: SaidCondition, inner = false): string {
  if (typeof condition === 'string') return condition;
  const parts = condition.of.map((part) => sentence(part, true));
  if (condition.lead === 'not') return `it is not so that ${parts.join(', ')}`;
  const joined = parts.join(condition.lead === 'all of these' ? ', and ' : ', or ');
  return inner ? `(${joined})` : joined;
}
