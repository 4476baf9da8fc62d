import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { compareAnswers } from '../../src/decision/questions/compare.ts';
import { printComparison } from '../../src/documents/terminal/comparison.ts';
import { context } from '../decision/shipped.ts';
import { textsOf } from './papers.ts';
import { quiltWith } from './quilt-with.ts';

/** The same quilt, made in this year. */
const madeIn = (about: number, quilt: QuiltCase): QuiltCase => ({
  ...quilt,
  quilt: { ...quilt.quilt, made: { ...quilt.quilt.made, about } },
});

/** The same quilt, seen in photographs alone. */
const photographed = (quilt: QuiltCase): QuiltCase => ({
  ...quilt,
  survey: { ...quilt.survey, seen: 'photos' },
});

const LETTERS = ['decline', 'refer', 'not-yet'];
const letterOf = (texts: Readonly<Record<string, string>>): string =>
  LETTERS.flatMap((name) => texts[name] ?? [])
    .join(' ')
    .replace(/\s+/g, ' ');

describe('a quilt seen in photographs alone', () => {
  it('is priced as far as can be told: no deposit, no term, nothing to sign', async () => {
    const sound = quiltWith([], 'sound', 'guest_bed');
    const firm = await textsOf(sound);
    expect(firm.estimate).toMatch(/A deposit of/);
    expect(firm.estimate).toMatch(/stands until/);
    const { estimate = '', terminal = '', json = '' } = await textsOf(photographed(sound));
    expect(estimate.replace(/\s+/g, ' ')).toMatch(/once it has been examined in hand/);
    expect(estimate).toMatch(/No deposit is due/);
    expect(estimate).not.toMatch(/A deposit of|[Ss]tands until|I accept|We work up to the top/);
    expect(terminal).not.toMatch(/deposit \$/);
    expect(json).not.toMatch(/"deposit":[1-9]/);
  });

  it('has no work that was agreed on, though the client has chosen', async () => {
    const decisions = [{ on: '2026-03-10', kind: 'client' as const, chosen: 'lines' as const }];
    const chosen = { ...quiltWith([], 'sound', 'guest_bed'), decisions };
    expect((await textsOf(chosen)).work).toMatch(/the work that was agreed on/);
    const { work = '' } = await textsOf(photographed(chosen));
    expect(work).toMatch(/has not been agreed on yet/);
    expect(work).not.toMatch(/the work that was agreed on/);
  });

  it('is not called weak where nobody has felt its cloth', async () => {
    const { care = '' } = await textsOf(photographed(quiltWith([], 'sound', 'guest_bed')));
    expect(care.replace(/\s+/g, ' ')).toContain('Do not wash it, by machine or by hand. Nobody knows yet');
    expect(care).not.toMatch(/too weak/);
    const weak = await textsOf(quiltWith([], 'weak', 'guest_bed'));
    expect(weak.care).toMatch(/too weak/);
  });
});

describe('a smell of mothballs', () => {
  // Naphthalene and G6PD deficiency: EPA on mothballs (archived), from memory.
  it.each(['infant_sleep', 'child_bed', 'guest_bed', 'storage'])('names babies: %s', async (use) => {
    const texts = await textsOf(quiltWith(['poison'], 'sound', use));
    expect(texts.terminal).toMatch(/Naphthalene/);
    expect(letterOf(texts)).toMatch(/keep it away from babies/);
  });
});

describe('letters while a hazard stands', () => {
  it('offer nothing that would have somebody open it, however else the quilt is sent on', async () => {
    const texts = await textsOf(madeIn(1880, quiltWith(['rodent waste'], 'sound', 'guest_bed')));
    const letter = letterOf(texts);
    expect(letter).toMatch(/expert/);
    expect(letter).not.toMatch(/We can photograph/);
    // What its age asks for is settled too, and not the waste alone.
    expect(letter).toMatch(/dealt with, and that has been confirmed in writing\..{0,5}A written opinion/);
  });

  it('and the decision sheet name nothing that one would have to open it to learn', async () => {
    const { survey, ...rest } = quiltWith([], 'sound', 'guest_bed');
    const vague = { ...survey, families: { A: { fibre: 'cotton' as const } } };
    const before = await textsOf({ ...rest, survey: vague });
    expect(before.decision).toMatch(/If we knew more about these/);
    const findings = { ...survey.findings, mould_area: 60 };
    const texts = await textsOf({ ...rest, survey: { ...vague, findings } });
    expect(texts.decision).not.toMatch(/If we knew more about these/);
    expect(letterOf(texts)).toMatch(/Mould/);
    expect(letterOf(texts)).not.toMatch(/If we knew more about these/);
  });

  it('say that the hazard is the reason, whatever the use', async () => {
    const { decision = '', decline = '' } = await textsOf(
      quiltWith(['sewage or fuel'], 'sound', 'guest_bed'),
    );
    expect(decision).toMatch(/while this is in\s+it, for any use/);
    expect(decision).not.toMatch(/for the use you\s+have in mind/);
    // Who is asked about a hazard stands with it; nobody needs an appraiser for sewage.
    expect(decline.match(/Other people to ask/g)).toHaveLength(1);
    expect(decline).not.toMatch(/appraiser/);
  });

  it('do not say how a quilt comes back that nobody may move', async () => {
    for (const hazard of ['live insects', 'mould', 'poison'])
      expect(letterOf(await textsOf(quiltWith([hazard], 'sound', 'guest_bed')))).not.toMatch(
        /same wrapping|hold it for you/,
      );
    const clean = await textsOf(madeIn(1880, quiltWith([], 'sound', 'guest_bed')));
    expect(letterOf(clean)).toMatch(/same wrapping/);
    expect(
      letterOf(await textsOf(photographed(madeIn(1880, quiltWith([], 'sound', 'guest_bed'))))),
    ).not.toMatch(/same wrapping/);
  });

  it('name who removes mould and who dries a damp quilt', async () => {
    const mould = letterOf(await textsOf(quiltWith(['mould'], 'sound', 'guest_bed')));
    expect(mould).toMatch(/removed, by a textile conservator or a mould professional/);
    const damp = letterOf(await textsOf(quiltWith(['damp'], 'sound', 'guest_bed')));
    expect(damp).toMatch(/dried before it is surveyed or sewn, by a textile conservator/);
  });
});

describe('a hazard that is supposed away', () => {
  const answerTo = (quilt: QuiltCase) => decideQuick(quilt, context).answer;

  it('goes on stopping the quilt, and none of its cautions is called needless', () => {
    const noted = answerTo(quiltWith(['rodent waste', 'damp'], 'sound', 'guest_bed'));
    const supposed = answerTo(quiltWith(['damp'], 'sound', 'guest_bed'));
    const comparison = compareAnswers(noted, supposed, []);
    expect(comparison.still_stops.map(({ hazard }) => hazard)).toEqual(['rodent_waste']);
    expect(comparison.conditions_lost).toEqual([]);
    const page = printComparison('random', comparison, { color: false, width: 100 });
    expect(page).toMatch(
      /goes on stopping the quilt[\s\S]*closed bag[\s\S]*health department[\s\S]*as supposed/,
    );
    expect(page).not.toMatch(/no longer needed/);
  });

  it('is not spoken of where nothing of the kind was supposed', () => {
    const damp = answerTo(quiltWith(['damp'], 'sound', 'guest_bed'));
    const harder = answerTo(quiltWith(['damp'], 'sound', 'regular_bed'));
    expect(compareAnswers(damp, harder, []).still_stops).toEqual([]);
    const free = answerTo(quiltWith([], 'sound', 'guest_bed'));
    const bed = answerTo(quiltWith([], 'sound', 'child_bed'));
    expect(compareAnswers(bed, free, []).conditions_lost).not.toEqual([]);
  });
});

describe('a repair that is finished', () => {
  it('and turns out to hold a hazard says so first, and gets no care sheet', async () => {
    const done = { ...quiltWith([], 'sound', 'guest_bed'), completed: { on: '2026-04-20' } };
    const safe = await textsOf(done);
    expect(safe.report).not.toMatch(/This comes first/);
    expect(safe.care).toMatch(/It was repaired/);
    const resurveys = [{ on: '2026-10-02', seen: 'in hand' as const, findings: { rodent_waste: true } }];
    const { report = '', ...others } = await textsOf({ ...done, resurveys });
    expect(report.indexOf('This comes first')).toBeGreaterThan(0);
    expect(report.indexOf('This comes first')).toBeLessThan(report.indexOf('What was done'));
    expect(report).toMatch(/health department/);
    expect(safe.report).toMatch(/Come back when/);
    expect(report).not.toMatch(/Come back when|see how it does/);
    expect(Object.keys(others)).not.toContain('care');
  });

  it('is not brought back with insects, droppings or mould in it', async () => {
    const { care = '' } = await textsOf(quiltWith([], 'sound', 'guest_bed'));
    expect(care.replace(/\s+/g, ' ')).toMatch(
      /insects, droppings, mould or damp.*do not bring it or post it/,
    );
    expect(care).not.toMatch(/^- you see insects/m);
  });
});
