import { describe, expect, it } from 'vitest';
import { checkRules } from '../../src/analysis/check/all.ts';
import type { Diagnostic } from '../../src/analysis/rulebook-model.ts';
import { bookOf, examined, rule, shipped } from './book.ts';

const remarks = (code: string, stages: Readonly<Record<string, readonly string[]>>): readonly Diagnostic[] =>
  checkRules(examined(bookOf(stages))).remarks.filter((each) => each.code === code);
const named = (list: readonly Diagnostic[]): string[][] => list.map(({ rules }) => rules.map(({ id }) => id));

describe('rules that can never be true', () => {
  it('are found where two tests of one finding exclude each other', () => {
    const found = remarks('never-true', {
      extent: [
        rule(
          'odd',
          '{ all: [{ finding: loss, more than: 20 % }, { finding: loss, less than: 5 % }] }',
          '{ ask: What? }',
        ),
      ],
    });
    expect(named(found)).toEqual([['odd']]);
    expect(found[0]?.rules[0]?.place.line).toBe(2);
  });

  it('are found where no plan there is fits: ties always need their own joining', () => {
    const when = '{ all: [{ plan: treatment, is: tie }, { plan: joining, is: lines }] }';
    expect(named(remarks('never-true', { joining: [rule('odd', when, '{ avoid: this plan }')] }))).toEqual([
      ['odd'],
    ]);
  });

  it('are found where a filling that is not there would have moved', () => {
    const when =
      '{ all: [{ finding: batting_kind, is: none }, { finding: batting_migrated, more than: 40 % }] }';
    expect(named(remarks('never-true', { structure: [rule('odd', when, '{ ask: What? }')] }))).toEqual([
      ['odd'],
    ]);
  });

  it('are not claimed where one way of several is open', () => {
    const when =
      '{ any: [{ all: [{ finding: hung, is: yes }, { finding: hung, is: no }] }, { finding: damp, is: yes }] }';
    expect(remarks('never-true', { stop: [rule('open', when, '{ ask: What? }')] })).toEqual([]);
  });
});

describe('rules that are always true', () => {
  it('are found where the tests leave no value out', () => {
    const when = '{ any: [{ finding: loss, at most: 15 % }, { finding: loss, more than: 15 % }] }';
    expect(named(remarks('always-true', { extent: [rule('all', when, '{ ask: What? }')] }))).toEqual([
      ['all'],
    ]);
  });

  it('are not claimed where one value escapes', () => {
    const when = '{ any: [{ finding: loss, less than: 15 % }, { finding: loss, more than: 15 % }] }';
    expect(remarks('always-true', { extent: [rule('most', when, '{ ask: What? }')] })).toEqual([]);
  });
});

describe('rules that add nothing', () => {
  const wide = rule('wide', '{ all: [{ finding: loss, more than: 20 % }] }', '{ stand: decline }');
  const narrow = rule(
    'narrow',
    '{ all: [{ finding: loss, more than: 30 % }, { finding: hung, is: yes }] }',
    '{ stand: decline }',
  );
  it('are found with the rule that does the same', () => {
    const found = remarks('subsumed-rule', { extent: [wide, narrow] });
    expect(named(found)).toEqual([['narrow', 'wide']]);
    expect(found[0]?.example).toContain('hung on display: yes');
  });
  it('are kept where their effect is another', () => {
    expect(remarks('subsumed-rule', { extent: [wide, narrow.replace('decline', 'refer')] })).toEqual([]);
  });
});

describe('contradictions', () => {
  const damp = '{ all: [{ finding: damp, is: yes }] }';
  const close = rule('close', damp, '{ rule out: { plan: backing, one of: [add, replace] } }');
  const back = rule(
    'back',
    '{ all: [{ finding: hung, is: yes }] }',
    '{ call for: { plan: backing, one of: [add, replace] } }',
  );

  it('are found where one rules out what another calls for, with a case that shows it', () => {
    const [found, ...more] = remarks('contradiction', { structure: [close, back] });
    expect(more).toEqual([]);
    expect(found?.rules.map(({ id }) => id).sort()).toEqual(['back', 'close']);
    expect(found?.example).toEqual(expect.arrayContaining(['damp: yes', 'hung on display: yes']));
    expect(found?.rules.map(({ place }) => `${place.file}:${place.line}`)).toHaveLength(2);
  });

  it('are none where one gives way', () => {
    const yielding = rule(
      'close',
      damp,
      '{ rule out: { plan: backing, one of: [add, replace] } }',
      '  yields to: [back]\n',
    );
    expect(remarks('contradiction', { structure: [yielding, back] })).toEqual([]);
  });

  it('are none where both cannot be true of one quilt', () => {
    const dry = back.replace('hung, is: yes', 'damp, is: no');
    expect(remarks('contradiction', { structure: [close, dry] })).toEqual([]);
  });

  it('are none where a rule that declines is true whenever both are', () => {
    const says = rule('says', damp, '{ stand: decline }');
    expect(remarks('contradiction', { structure: [close, back], stop: [says] })).toEqual([]);
  });

  it('are found between two calls for what no plan has together', () => {
    const leave = rule('leave', damp, '{ call for: { plan: treatment, is: leave } }');
    expect(remarks('contradiction', { structure: [leave, back] })).toHaveLength(1);
  });
});

describe('thresholds', () => {
  const band = (id: string, tests: string): string =>
    rule(id, `{ all: [${tests}] }`, `{ ask: Is it ${id}? }`);
  it('that leave a hole are found, with a value in it', () => {
    const found = remarks('threshold-hole', {
      extent: [
        band('little', '{ finding: loss, less than: 5 % }'),
        band('much', '{ finding: loss, more than: 5 % }'),
      ],
    });
    expect(named(found)).toEqual([['little', 'much']]);
    expect(found[0]?.example).toEqual(['share of the top that is lost: 5 %']);
  });
  it('that overlap at the mark are found', () => {
    const found = remarks('threshold-overlap', {
      extent: [
        band('little', '{ finding: loss, at most: 5 % }'),
        band('much', '{ finding: loss, at least: 5 % }'),
      ],
    });
    expect(named(found)).toEqual([['little', 'much']]);
    expect(found[0]?.example).toEqual(['share of the top that is lost: 5 %']);
  });
  it('that meet are passed over', () => {
    const stages = {
      extent: [
        band('little', '{ finding: loss, at most: 5 % }'),
        band('much', '{ finding: loss, more than: 5 % }'),
      ],
    };
    expect([...remarks('threshold-hole', stages), ...remarks('threshold-overlap', stages)]).toEqual([]);
  });
});

describe('findings nobody can know', () => {
  it('are found where the rule speaks of photographs and asks for what only a hand can tell', () => {
    const when = '{ all: [{ finding: seen, is: photos }, { finding: batting_crumbling, is: yes }] }';
    const found = remarks('unknowable-finding', { structure: [rule('odd', when, '{ ask: What? }')] });
    expect(named(found)).toEqual([['odd']]);
    expect(found[0]?.what).toContain('batting_crumbling');
  });
});

describe('gaps', () => {
  it('are found where rules leave no plan and nothing says why', () => {
    const found = remarks('no-plan-left', {
      structure: [
        rule(
          'none',
          '{ all: [{ finding: intended_use, is: display }] }',
          '{ rule out: { plan: treatment, one of: [leave, reassemble, backing, tie, lines] } }',
        ),
      ],
    });
    expect(named(found)).toEqual([['none']]);
    expect(found[0]?.example).toContain('intended use: on display');
  });
});

describe('the shipped rules', () => {
  const { remarks: all, notCovered } = checkRules(examined(shipped()));
  it('hold no error', () => {
    expect(all.filter(({ severity }) => severity === 'error').map(({ what }) => what)).toEqual([]);
  });
  it('are looked at with what the search leaves out said', () => {
    expect(notCovered.join(' ')).toMatch(/independent.*drawn from about/s);
  });
});

describe('dates', () => {
  it('that end before they begin are errors, and rules not in force are noted', () => {
    const stages = {
      stop: [
        rule('backwards', '{ all: [{ finding: damp, is: yes }] }', '{ ask: What? }', '  until: 2025-01-01\n'),
        rule('ended', '{ all: [{ finding: hung, is: yes }] }', '{ ask: What? }', '  until: 2026-06-01\n'),
      ],
    };
    expect(named(remarks('dates-disagree', stages))).toEqual([['backwards']]);
    expect(named(remarks('not-in-force', stages))).toEqual([['backwards'], ['ended']]);
  });
});
