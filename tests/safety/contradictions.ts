/** Two things that no answer and no paper may say together. */
export interface Pair {
  readonly name: string;
  readonly one: RegExp;
  readonly other: RegExp;
  /** Said together, in the words of a paper: shows that the check can fail. */
  readonly planted: readonly [string, string];
  /** Close to it, and no contradiction. */
  readonly innocent: readonly [string, string];
}

export const PAIRS: readonly Pair[] = [
  {
    name: 'wetted / not washed at all',
    one: /\b(before anything is wetted|wash it by hand|can be washed by machine|accepted once it has been wetted)\b/i,
    other:
      /\b(never wash it\b(?! by machine)|do not wash it, by machine or by hand|never wet it|nothing is washed|cannot be wetted)/i,
    planted: [
      'Seams are closed before anything is wetted.',
      'Nothing is washed, before or after the repair.',
    ],
    innocent: ['Wash it by hand, seldom.', 'Never wash it by machine and never dry clean it.'],
  },
  {
    name: 'moving air at the cloth / no air at it',
    one: /\b(dried flat in moving|point a fan at it\b(?<!never point a fan at it))/i,
    other: /\b(do not blow air|no fan is pointed)/i,
    planted: ['It is dried flat in moving, unheated air.', 'Do not blow air across it.'],
    innocent: ['It is dried in a dry room whose air is moved.', 'No fan is pointed at the cloth.'],
  },
  {
    name: 'every seam / one by one',
    one: /\bevery seam is resewn\b/i,
    other: /\bseams are tried one by one\b/i,
    planted: ['In rows where seams have opened, every seam is resewn.', 'Seams are tried one by one.'],
    innocent: ['Every seam is resewn.', 'Insets are replaced one by one.'],
  },
  {
    name: 'work stops / go ahead',
    one: /\bwork stops\b/i,
    other: /\bgo ahead\b/i,
    planted: ['Work stops, the inner quilt is photographed.', 'Go ahead: tie it.'],
    innocent: ['Work pauses once the quilt is open.', 'Go ahead: tie it.'],
  },
  {
    name: 'a hazard stands / deposit, agreement, repaired',
    one: /\b(until what is in it has been dealt with|questions on safety have not been answered)\b/i,
    other:
      /\b(a deposit of|reserves your place|the work that was agreed on|it was repaired to be|i accept this estimate)\b/i,
    planted: [
      'Nothing can be done until what is in it has been dealt with.',
      'A deposit of $310 reserves your place.',
    ],
    innocent: ['Nothing can be done until what is in it has been dealt with.', 'No deposit is due.'],
  },
  {
    name: 'closed bag / opened, spread or padded',
    one: /\bleave it in its closed bag\b/i,
    other:
      /(?<!not |never )\b(lay it flat|pad the folds|unfold it|roll it around|air it flat|refold it|fold it over)\b/i,
    planted: ['Leave it in its closed bag.', 'Lay it flat, or roll it around a tube.'],
    innocent: ['Leave it in its closed bag.', 'Do not open, unfold, shake or air it.'],
  },
  {
    name: 'not sealed in plastic / sealed',
    one: /\bcannot stay sealed in plastic\b/i,
    // A damp textile is dried first and treated with cold after that, never sealed up or frozen wet: common practice.
    other:
      /(?<!\b(?:if|once) it is dry,?[^.]{0,50})\b(seal it in|seal that too|keep it sealed|into a second bag|keep it in (?:a|its) (?:clear )?closed bag|stays in its closed bag until|in its sealed bag|in the sealed bag)\b(?![^.]*\.[^.]*feels damp, tell us)/i,
    planted: [
      'It cannot stay sealed in plastic for long.',
      'Put the closed bag into a second bag and close that too.',
    ],
    innocent: [
      'It cannot stay sealed in plastic for long.',
      'If it is dry, put the closed bag into a second bag and close that too.',
    ],
  },
  {
    name: 'flat / hung',
    one: /\b(keep it dry, dark and flat|it is not hung)\b/i,
    other: /\bhang(s)? (it )?by a (full-width )?sleeve\b/i,
    planted: ['It is not hung; it is shown flat.', 'It hangs by a sleeve along its whole width.'],
    innocent: ['Keep it dry and dark.', 'It hangs by a sleeve along its whole width.'],
  },
  {
    name: 'provisional / nothing could change it',
    one: /\(provisional\)|\bthis advice may still change/i,
    other:
      /\b(nothing you could still find out( from here)? changes this|nothing still unknown would change)/i,
    planted: ['Go ahead: tie it (provisional)', 'Nothing you could still find out changes this'],
    innocent: ['Go ahead: tie it', 'Nothing still unknown would change the treatment we advise.'],
  },
  {
    name: 'machine wash / never by machine',
    one: /\bit can be washed by machine\b/i,
    other: /\bnever wash it by machine\b/i,
    planted: ['It can be washed by machine on a gentle cycle.', 'Never wash it by machine.'],
    innocent: ['Wash it by hand, seldom.', 'Never wash it by machine.'],
  },
  {
    name: 'washed as a matter of course / never washed',
    one: /\b(used and washed often|frequent use and washing|washed seldom)\b/i,
    other: /\b(never wash it\b(?! by machine)|do not wash it, by machine or by hand)/i,
    planted: ['It will be used and washed often.', 'Never wash it.'],
    innocent: ['It will be used often.', 'Never wash it.'],
  },
  {
    // CDC on rodent waste: no vacuum. Smithsonian MCI on mould: HEPA vacuum once dry. Both from memory.
    name: 'cleaned with a vacuum / never vacuumed',
    one: /\b(with a HEPA-filter vacuum|gentle suction)\b/i,
    other: /\bnever vacuum it\b/i,
    planted: ['It is cleaned with a HEPA-filter vacuum.', 'Never vacuum it, not even with a HEPA filter.'],
    innocent: ['It is cleaned with a HEPA-filter vacuum.', 'Never shake or brush it.'],
  },
  {
    name: 'figures not firm / a term, a deposit, a signature',
    one: /\b(nothing is agreed on yet|become firm, and a deposit falls due, once)\b/i,
    other: /\b(this estimate stands until|a deposit of|i accept this estimate|we work up to the top)\b/i,
    planted: ['Nothing is agreed on yet.', 'This estimate stands until 29 December 2026.'],
    innocent: ['Nothing is agreed on yet.', 'No deposit is due.'],
  },
  {
    name: 'a hazard stands / offers that open it, and a way back as if nothing were in it',
    one: /\buntil what is in it has been dealt with\b/i,
    other: /\b(we can photograph it|padded flat box|description of its condition|same wrapping)\b/i,
    planted: [
      'Nothing can be done until what is in it has been dealt with.',
      'We can photograph it and describe its condition for the expert.',
    ],
    innocent: [
      'Nothing can be done until what is in it has been dealt with.',
      'We can advise on sealed storage.',
    ],
  },
  {
    name: 'too fragile for any bed / offered for a guest bed',
    one: /\bbreaks when it is sat on or pulled over a bed\b/i,
    other: /\bmended for a guest bed\b/i,
    planted: [
      'Cloth that is fragile breaks when it is sat on or pulled over a bed.',
      'It can be mended for a guest bed or for display.',
    ],
    innocent: [
      'Cloth that is fragile breaks when it is sat on or pulled over a bed.',
      'It can be supported and shown flat.',
    ],
  },
  {
    name: 'washing after a test / never wetted',
    one: /\bwithout a test of every colour\b/i,
    other: /\bnever wet it\b/i,
    planted: ['Washing, by machine or by hand, without a test of every colour.', 'Never wet it.'],
    innocent: ['Washing, by machine or by hand.', 'Never wet it.'],
  },
  {
    name: 'one price / a range',
    one: /\bone price\b/i,
    other: /\bwe ask \$/i,
    planted: ['There is one stage and one price.', 'We ask $1,060; it may come to between $780 and $1,480'],
    innocent: ['There is one stage.', 'We ask $1,060; it may come to between $780 and $1,480'],
  },
];

/** Sentences that are wrong whatever stands beside them, or without what has to stand beside them. */
export const NEVER: readonly { readonly name: string; readonly what: RegExp; readonly planted: string }[] = [
  {
    name: 'a loss of nothing given as a loss',
    what: /lost cloth makes up 0 %/i,
    planted: 'Lost cloth makes up 0 % of the top.',
  },
  {
    name: 'a closed bag for what may be damp, without a word on damp',
    what: /until they are answered, keep it in a closed bag(?!.{0,120}feels damp, tell us)/i,
    planted: 'Until they are answered, keep it in a closed bag, and wear gloves to move it.',
  },
  {
    name: 'a promise nobody made',
    what: /\b(locked away|fully insured|we guarantee)\b/i,
    planted: 'While it is with us the quilt is kept clean, dry and locked away.',
  },
  {
    name: 'a frequency nobody measured',
    what: /in 8 of 10 quilts like this one/i,
    planted: 'In 8 of 10 quilts like this one the next repair falls due in 3 to 11 years.',
  },
];

/** Names of what a text says that no text may say. */
export const contradictionsIn = (text: string): string[] => {
  const flat = text.replace(/\s+/g, ' ');
  return [
    ...PAIRS.filter(({ one, other }) => one.test(flat) && other.test(flat)).map(({ name }) => name),
    ...NEVER.filter(({ what }) => what.test(flat)).map(({ name }) => name),
  ];
};
