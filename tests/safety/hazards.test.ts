import { describe, expect, it } from 'vitest';
import { HAZARDS, type Hazard, USES, type Use } from '../../src/casebook/scales.ts';
import { contextOf } from '../../src/decision/context.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { explain } from '../../src/decision/explain.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { caseFrom, context, practice, shipped } from '../decision/shipped.ts';
import { FULL, sample } from '../tiers.ts';
import { contradictionsIn } from './contradictions.ts';
import { textsOf } from './papers.ts';
import { NOTED, quiltWith } from './quilt-with.ts';

const NAMES = Object.keys(NOTED);
/** Every hazard alone, and every two at once. */
const CROSSED = NAMES.flatMap((one, index) => [
  [one],
  ...NAMES.slice(index + 1).map((other) => [one, other]),
]).filter(([one, other]) => !(one === 'mould' && other === 'much mould'));
/** In the short tier, a hazard alone is tried for every third use, and two at once for one use each, taken in turn. */
const usesFor = (hazards: readonly string[], index: number): readonly Use[] =>
  FULL || hazards.length === 1 ? sample(USES, 3) : USES.slice(index % USES.length).slice(0, 1);

/**
 * What nobody may be told while a hazard stands. Public advice: CDC, cleaning up after rodents (do not stir up dust, no
 * vacuum); EPA 402-K-06-006, Flood Cleanup (gloves, goggles, N-95); Smithsonian MCI and The National Archives (UK) on
 * mould (no treatment while active, apart from the collection); National Park Service, Conserve O Gram 3/6 and The
 * Textile Museum (insects stay packaged). From memory of these pages; wording is ours. A ban ("do not shake") is allowed.
 */
const FORBIDDEN: readonly RegExp[] = [
  /(?<!\b(?:not|never|nor|nobody|without)\b[^.]{0,60})\b(?:unfold|lay|spread|air|shake|pad|iron|wash|refold|roll) (?:it|the folds)\b/i,
  /\bopen (?:the bag|it) (?:outdoors|indoors|for)/i,
  /^(?!.*HEPA).*\bvacuum(?:ed)?\b.*\bthrough a screen\b/i,
  /\b(?:look again|a second look (?:that )?(?:shows|could show|confirms)|what a second look)/i,
  /\bwhen can the quilt be brought in\b/i,
  /\b(?:pad the folds|padded folds|air it flat|dry it flat)\b/i,
];

const forbiddenIn = (text: string): string[] =>
  text
    .replace(/\s+/g, ' ')
    .split(/(?<=[.!?:])\s+|[;•]\s*|(?:^|\s)- /)
    .filter((sentence) => FORBIDDEN.some((pattern) => pattern.test(sentence)));

/** Who has to be named for each: common practice of public health and conservation bodies, as above. */
const AUTHORITY: Readonly<Record<string, RegExp>> = {
  mould: /conservator or a mould|mould (?:remediation )?professional/i,
  'much mould': /mould remediation professional/i,
  damp: /conservator/i,
  'live insects': /pest (?:control )?professional/i,
  'traces on wool': /pest (?:control )?professional/i,
  'rodent waste': /health department/i,
  'sewage or fuel': /health department/i,
  poison: /laboratory/i,
  smell: /health department|laboratory/i,
};

const LETTERS = ['decline', 'refer', 'not-yet'];

describe.each(['sound', 'weak'])('hazards crossed, in %s cloth', (fragility) => {
  it.each(CROSSED.map((hazards, index) => [hazards.join(' and '), hazards, index] as const))(
    '%s',
    async (_, hazards, index) => {
      for (const use of usesFor(hazards, index)) {
        const texts = await textsOf(quiltWith(hazards, fragility, use));
        for (const [paper, text] of Object.entries(texts)) {
          const where = `${use}, ${paper}`;
          expect(contradictionsIn(text), where).toEqual([]);
          // Rules speak of a later, softer use as well; what is said of the quilt as it lies there is what counts.
          if (paper !== 'json') expect(forbiddenIn(text), where).toEqual([]);
          expect(text, where).not.toMatch(/deposit of \$|reserves your place|the work that was agreed on/i);
          if (!['terminal', 'json'].includes(paper)) {
            expect(text, where).not.toMatch(/\b\w+\.(?:com|org|gov|net)\b|blogspot/);
            expect(text, where).not.toContain('853');
          }
        }
        expect(Object.keys(texts)).not.toContain('work');
        expect(Object.keys(texts)).not.toContain('estimate');
        expect(Object.keys(texts)).not.toContain('care');
        const letters = LETTERS.filter((name) => name in texts);
        expect(letters).toHaveLength(1);
        for (const name of hazards) {
          expect(texts[letters[0] ?? ''], `${use}: ${name}`).toMatch(AUTHORITY[name] ?? /nobody/);
          expect(texts.terminal, `${use}: ${name}`).toMatch(AUTHORITY[name] ?? /nobody/);
        }
      }
    },
  );
});

describe('what forbidden advice looks like', () => {
  it.each([
    'Lay it flat, or roll it around a tube with a clean sheet between.',
    'Open it outdoors and stop if eyes or throat sting.',
    'It is vacuumed through a screen by somebody with suitable protection.',
    'A second look that shows something other than what we found.',
  ])('is found: %s', (planted) => expect(forbiddenIn(planted)).toHaveLength(1));

  it.each([
    'Do not open, unfold, shake or air it.',
    'Never shake or brush it, and never vacuum it, not even with a HEPA filter.',
    'Once dry, it is cleaned with a HEPA-filter vacuum through a screen, outdoors.',
  ])('is not found where it is banned: %s', (innocent) => expect(forbiddenIn(innocent)).toEqual([]));
});

describe('a hazard of which nothing else is known', () => {
  it.each(NAMES.filter((name) => name !== 'traces on wool'))('%s stops the quilt', (name) => {
    const bare = caseFrom({
      mendwise: 1,
      case: 'random',
      quilt: { size: { width: '60 in', height: '70 in' } },
      survey: { seen: 'photos', findings: NOTED[name] ?? {} },
    });
    expect(evaluate(bare, context).outcome.standing).not.toBe('go_ahead');
  });
});

describe('a day before any rule was written', () => {
  // The letter of March is written from rules of November: what stops a quilt was dangerous in March as well.
  it.each(NAMES)('%s stops the quilt all the same, with its cautions', (name) => {
    const quilt = quiltWith([name], 'sound', 'guest_bed');
    const now = explain(evaluate(quilt, context), context);
    const early = contextOf({ knowledge: shipped, practice }, '2026-03-05');
    const then = explain(evaluate(quilt, early), early);
    expect(then.safety).toEqual(now.safety);
    expect(then.standing).toBe(now.standing);
    expect(then.cautions.filter(({ rule }) => isStop(rule))).toEqual(
      now.cautions.filter(({ rule }) => isStop(rule)),
    );
  });
  const isStop = (id: string): boolean =>
    shipped.rulebook.rules.some((rule) => rule.id === id && rule.group === 'stop');
});

describe('what would change an answer', () => {
  it('never names a finding on safety, and sends nobody to look while a hazard stands', async () => {
    for (const name of NAMES) {
      const settled = evaluate(quiltWith([name], 'sound', 'guest_bed'), context);
      const { would_change, check_next } = await question(settled, context);
      for (const { changes, who } of would_change ?? []) {
        expect(who, name).toBe('client');
        for (const { finding } of changes)
          expect(context.knowledge.vocabulary.findings.get(finding)?.group, name).not.toBe('safety');
      }
      for (const { finding } of check_next ?? [])
        expect(context.knowledge.vocabulary.findings.get(finding)?.who, name).toBe('client');
    }
  });
});

describe('a hazard that was dealt with', () => {
  const entry = (hazard: Hazard, on = '2026-03-10') => ({
    treated: [
      { hazard, how: 'as advised', by: 'helper-a', on, confirmed_by: 'a letter', found: 'harmless' as const },
    ],
  });
  const BY_HAZARD: Readonly<Record<Hazard, string>> = {
    mould: 'mould',
    damp: 'damp',
    insects: 'live insects',
    rodent_waste: 'rodent waste',
    sewage_or_fuel: 'sewage or fuel',
    poison: 'poison',
    smell: 'smell',
  };
  const stopsOf = (...given: Parameters<typeof quiltWith>) =>
    evaluate(quiltWith(...given), context).outcome.standingRules.map(({ id }) => id);

  it.each(HAZARDS)('%s: its stop is lifted, and no other', (hazard) => {
    const other = hazard === 'damp' ? 'rodent waste' : 'damp';
    const name = BY_HAZARD[hazard];
    expect(stopsOf([name], 'sound', 'guest_bed')).not.toEqual([]);
    expect(stopsOf([name], 'sound', 'guest_bed', entry(hazard))).toEqual([]);
    expect(stopsOf([name, other], 'sound', 'guest_bed', entry(hazard))).toEqual(
      stopsOf([other], 'sound', 'guest_bed'),
    );
  });

  it('comes back where a later look notes it again, and stays where one no longer does', () => {
    const look = (findings: object) => ({ resurveys: [{ on: '2026-03-20', seen: 'in hand', findings }] });
    const again = { ...entry('rodent_waste'), ...look({ rodent_waste: 'yes' }) };
    expect(stopsOf(['rodent waste'], 'sound', 'guest_bed', again)).toEqual([
      'rodent-waste-is-disinfected-first',
    ]);
    const gone = look({ rodent_waste: 'no' });
    expect(stopsOf(['rodent waste'], 'sound', 'guest_bed', gone)).toEqual([
      'rodent-waste-is-disinfected-first',
    ]);
  });

  it('asks why where it went away without a word', async () => {
    const gone = quiltWith(['rodent waste'], 'sound', 'guest_bed', {
      resurveys: [{ on: '2026-03-20', seen: 'in hand', findings: { rodent_waste: 'no' } }],
    });
    expect((await textsOf(gone)).terminal).toMatch(/noted at an earlier look/);
  });
});

describe('questions on safety that nobody asked', () => {
  it('are what to find out first, and nothing else is asked that opens it', async () => {
    const { findings } = context.knowledge.vocabulary;
    for (const hazards of [[], ['rodent waste']]) {
      const { survey, ...rest } = quiltWith(hazards, 'sound', 'guest_bed');
      const { damp: _, live_pests: __, ...known } = survey.findings ?? {};
      const families = { A: { fibre: 'cotton' as const, fragility: 'sound' as const } };
      const vague = { ...rest, survey: { ...survey, findings: known, families } };
      const { check_next } = await question(evaluate(vague, context), context);
      const defs = (check_next ?? []).map(({ finding }) => findings.get(finding));
      const first = defs.findIndex((def) => def?.group !== 'safety');
      const last = defs.findLastIndex((def) => def?.group === 'safety');
      if (first >= 0) expect(last).toBeLessThan(first);
      for (const def of defs.filter((each) => each?.group !== 'safety')) expect(def?.who).toBe('client');
      if (hazards.length === 0)
        expect(defs.map((def) => def?.id)).toEqual(expect.arrayContaining(['damp', 'live_pests']));
    }
  });

  it('of a quilt nobody has seen are not asked as if its photographs had been looked at', async () => {
    const told = caseFrom({
      mendwise: 1,
      case: 'random',
      quilt: { size: { width: '60 in', height: '70 in' } },
      survey: { seen: 'photos', findings: { rodent_waste: 'yes' } },
    });
    const letters = await textsOf(told);
    expect(letters['not-yet'] ?? letters.decline).toMatch(/Nobody here has seen it yet/);
    const { photos: _, ...sent } = told;
    const withPhoto = await textsOf({ ...sent, photos: [{ file: 'front.jpg' }] });
    expect(withPhoto['not-yet'] ?? withPhoto.decline).toMatch(/We looked at your photographs/);
  });

  it('come first, and nothing is ordered, agreed on or reserved', async () => {
    const { survey, ...rest } = quiltWith([], 'sound', 'guest_bed');
    const unasked = { ...rest, survey: { ...survey, findings: {} } };
    const texts = await textsOf(unasked);
    expect(Object.keys(texts)).not.toContain('work');
    expect(Object.keys(texts)).not.toContain('care');
    for (const [paper, text] of Object.entries(texts)) {
      if (paper === 'json') continue;
      const first = text.search(/questions on safety/i);
      expect(first, paper).toBeGreaterThan(0);
      for (const later of [/\bBecause\b/, /Five ways/, /\nPrice\n/]) {
        const at = text.search(later);
        if (at > 0) expect(first, paper).toBeLessThan(at);
      }
      expect(text, paper).not.toMatch(/deposit of \$|agreed on\./);
    }
    expect(JSON.parse(texts.json ?? '{}')).toMatchObject({ provisional: true });
  });
});

describe('care sheets', () => {
  it('say whether to wash, name babies, and never give rules of the workroom', async () => {
    // AAP, safe infant sleep 2022, and CPSC 8 April 1999: no soft bedding with a baby under twelve months.
    for (const fragility of ['sound', 'worn', 'weak'])
      for (const use of ['storage', 'display', 'guest_bed', 'regular_bed', 'child_bed']) {
        const { care = '' } = await textsOf(quiltWith([], fragility, use));
        expect(care, use).toMatch(/sleeping baby under twelve months/);
        expect(care, use).toMatch(/\bWashing\b/);
        expect(care, use).toMatch(/wash it|washed by machine/i);
        expect(care, use).not.toMatch(
          /counted out and in|HEPA|iron off|by the patch|law asks for a licence/i,
        );
        expect(care, use).not.toMatch(/It was repaired/);
      }
  });
});
