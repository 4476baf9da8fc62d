import { ACTIONS, HAZARDS, USES } from '../casebook/scales.ts';
import { quoted, textOf } from '../source/quote.ts';
import { suggest } from '../source/suggest.ts';
import {
  type Effects,
  type PlanTarget,
  SENTENCE_EFFECTS,
  SENTENCES,
  type SentenceEffect,
  type Test,
} from './model.ts';
import { type Path, type Reading, readTest, report } from './read-condition.ts';

type Raw = Readonly<Record<string, unknown>>;
const isRecord = (raw: unknown): raw is Raw => typeof raw === 'object' && raw !== null && !Array.isArray(raw);

interface EffectReader {
  readonly in: 'stages' | 'units';
  read(reading: Reading, raw: unknown, path: Path): Effects;
}

/** How each effect is written, and what it becomes. One entry an effect; nothing else knows the list. */
const EFFECTS: Readonly<Record<string, EffectReader>> = {
  stand: {
    in: 'stages',
    read: oneWord({ 'not yet': 'not_yet', refer: 'refer', decline: 'decline' } as const, (stand) => ({
      stand,
    })),
  },
  'refuse use': {
    in: 'stages',
    read: oneWord(Object.fromEntries(USES.map((use) => [use, use])), (refuseUse) => ({
      refuseUse,
    })),
  },
  'rule out': {
    in: 'stages',
    read: (reading, raw, path) => target(reading, raw, path, (ruleOut) => ({ ruleOut })),
  },
  'call for': {
    in: 'stages',
    read: (reading, raw, path) => asTests(reading, raw, path, (callFor) => ({ callFor })),
  },
  prefer: {
    in: 'stages',
    read: (reading, raw, path) => target(reading, raw, path, (prefer) => ({ prefer })),
  },
  avoid: { in: 'stages', read: (reading, raw, path) => target(reading, raw, path, (avoid) => ({ avoid })) },
  hazard: {
    in: 'stages',
    read: oneWord(Object.fromEntries(HAZARDS.map((name) => [name, name])), (hazard) => ({
      hazard,
    })),
  },
  ...sentences(),
  action: {
    in: 'units',
    read: oneWord(Object.fromEntries(ACTIONS.map((action) => [action, action])), (action) => ({ action })),
  },
};

/** Reads what a rule does; reports unknown effects with the list of those there are. */
export function readEffects(reading: Reading, raw: unknown, path: Path, group: 'stages' | 'units'): Effects {
  const names = Object.keys(EFFECTS).filter((name) => EFFECTS[name]?.in === group);
  if (!isRecord(raw) || Object.keys(raw).length === 0) {
    report(reading, path, 'value', {
      code: 'bad-effect',
      what: '"then" says nothing that the rule does',
      cure: `Use one or more of: ${names.join(', ')}.`,
    });
    return {};
  }
  let effects: Effects = {};
  for (const [name, value] of Object.entries(raw)) {
    const effect = names.includes(name) ? EFFECTS[name] : undefined;
    if (effect === undefined) {
      const near = suggest(name, names);
      report(reading, [...path, name], 'key', {
        code: 'bad-effect',
        what: `"${name}" is not something a rule can do here`,
        cure: `Use one or more of: ${names.join(', ')}.`,
        ...(near === undefined ? {} : { didYouMean: near }),
      });
      continue;
    }
    effects = { ...effects, ...effect.read(reading, value, [...path, name]) };
  }
  return effects;
}

function oneWord<T>(words: Readonly<Record<string, T>>, make: (value: T) => Effects): EffectReader['read'] {
  return (reading, raw, path) => {
    const value = typeof raw === 'string' && Object.hasOwn(words, raw) ? words[raw] : undefined;
    if (value !== undefined) return make(value);
    const near = suggest(textOf(raw), Object.keys(words));
    report(reading, path, 'value', {
      code: 'not-an-option',
      what: `${quoted(raw)} is not one of the choices here`,
      cure: `Use one of: ${Object.keys(words).join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    });
    return {};
  };
}

/** Effects that are one sentence each. */
function sentences(): Record<string, EffectReader> {
  const read = (name: SentenceEffect): EffectReader => ({
    in: 'stages',
    read: (reading, raw, path) => text(reading, raw, path, (said) => ({ [name]: said })),
  });
  return Object.fromEntries(SENTENCE_EFFECTS.map((name) => [SENTENCES[name], read(name)]));
}

function text(reading: Reading, raw: unknown, path: Path, make: (value: string) => Effects): Effects {
  if (typeof raw === 'string' && raw.trim() !== '') return make(raw.trim());
  report(reading, path, 'value', {
    code: 'wrong-kind',
    what: 'A sentence is wanted here',
    cure: 'Write what the client or helper should read.',
  });
  return {};
}

function target(reading: Reading, raw: unknown, path: Path, make: (value: PlanTarget) => Effects): Effects {
  return raw === 'this plan' ? make('this plan') : asTests(reading, raw, path, make);
}

/** One test on the plan, or a list of them that must all pass. They are not conditions of the rule, so they are not among its tests. */
function asTests(
  reading: Reading,
  raw: unknown,
  path: Path,
  make: (value: readonly Test[]) => Effects,
): Effects {
  const list = Array.isArray(raw) ? raw : [raw];
  const own: Reading = { ...reading, allowed: ['plan'], tests: [] };
  const tests: Test[] = [];
  for (const [index, item] of list.entries()) {
    const at = Array.isArray(raw) ? [...path, index] : path;
    if (!isRecord(item)) {
      report(reading, at, 'value', {
        code: 'bad-effect',
        what: `${JSON.stringify(item) ?? 'nothing'} does not say which plans are meant`,
        cure: 'Write "this plan", or a test such as { plan: backing, one of: [add, replace] }.',
      });
      continue;
    }
    const condition = readTest(own, item, at);
    if (condition !== undefined && 'test' in condition) tests.push(condition.test);
  }
  return tests.length === 0 ? {} : make(tests);
}
