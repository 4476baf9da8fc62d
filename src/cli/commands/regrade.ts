import type { QuiltCase } from '../../casebook/model.ts';
import { writeUnits } from '../../casebook/positions.ts';
import { GRADES, type Grade, UNIT_STATES, type UnitState } from '../../casebook/scales.ts';
import { readSecondSurvey } from '../../casebook/second-survey.ts';
import { faint, heading, paragraph, row } from '../../documents/terminal/layout.ts';
import { type Regraded, regradedMap, regradeSample } from '../../experience/regrade.ts';
import { findingReader } from '../../findings/read-answer.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { openCase } from '../../store/case-store.ts';
import { saveText } from '../../store/save-text.ts';
import { secondSurveyPath } from '../../store/second-surveys.ts';
import { openStudio, relativeName } from '../../store/studio.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { refuseUnsafe } from '../hazard.ts';

const fail = (code: Problem['code'], what: string, more: Partial<Problem> = {}): never => {
  throw new ProblemError([{ code, severity: 'error', what, ...more }]);
};

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const { path, case: base } = await openCase(typed.args[0] ?? '', studio);
  refuseUnsafe(base, `${base.case} cannot be graded again`, studio, terminal);
  const sample = regradeSample(base, studio.knowledge.figures, roundOf(typed));
  if (sample === undefined) {
    return fail('missing-key', `${base.case} has no map of its units, so there are none to pick from`, {
      cure: `Survey the whole quilt a second time: mendwise survey ${base.case} --as helper-b.`,
    });
  }
  const families = Object.entries(base.survey.families ?? {});
  const grades = typed.args.slice(1);
  if (grades.length > 0) {
    const file = await keep(
      typed,
      { base, path, sample, grades },
      studio.knowledge.vocabulary,
      terminal.today(),
    );
    terminal.err(`Written to ${relativeName(file)}. "mendwise helpers ${base.case}" compares.`);
    return 0;
  }
  if (typed.options.json === true) {
    terminal.out(
      JSON.stringify(
        {
          schema: 'mendwise/regrade@1',
          case: base.case,
          units: sample.map(({ at }) => at),
          families: families.map(([letter]) => letter),
        },
        null,
        2,
      ),
    );
    return 0;
  }
  const style = { color: terminal.color, width: terminal.width };
  const { grades: anchors, protocol, stopRule } = studio.knowledge.vocabulary;
  const as = textOption(typed, 'as') ?? 'helper-b';
  terminal.out(
    [
      heading(`Grade again, blind: ${base.case}`, style).trimStart(),
      paragraph(`${sample.length} units: ${sample.map(({ at }) => at).join(', ')}`, style, '  '),
      ...(families.length === 0
        ? []
        : [
            paragraph(
              `and every fabric: ${families.map(([letter, { name }]) => `${letter} ${name ?? ''}`.trim()).join(', ')}`,
              style,
              '  ',
            ),
          ]),
      heading('Fabrics', style),
      paragraph(protocol, style, '  '),
      paragraph(stopRule, style, '  '),
      ...anchors.map(({ value, anchors: signs }) =>
        row(
          value,
          ['look', 'pinch', 'tug', 'needle'].map((way) => `${way}: ${signs[way] ?? ''}`).join('; '),
          style,
          10,
        ),
      ),
      heading('Units', style),
      ...(studio.knowledge.vocabulary.unit.get('state')?.options ?? []).map(({ value, label }) =>
        row(`${UNIT_STATES[value as UnitState]}  ${value}`, label, style, 14),
      ),
      '',
      faint('Enter what you found, unit by unit and fabric by fabric:', style),
      `  mendwise regrade ${base.case} --as ${as} ${sample
        .slice(0, 2)
        .map(({ at }) => `${at}=sound`)
        .join(' ')} … ${families
        .slice(0, 1)
        .map(([letter]) => `${letter}=worn`)
        .join('')}`,
    ].join('\n'),
  );
  return 0;
};

const roundOf = (typed: Typed): number => {
  const given = textOption(typed, 'round');
  if (given === undefined) return 1;
  const round = Number(given);
  return Number.isInteger(round) && round >= 1 && round <= 99
    ? round
    : fail('out-of-range', `--round is "${given}"; it counts samples: 1, 2, 3, …`);
};

const BY_MARK = new Map(
  Object.entries(UNIT_STATES).map(([state, mark]) => [mark as string, state as UnitState]),
);

interface Given {
  readonly units: ReadonlyMap<string, UnitState>;
  readonly families: ReadonlyMap<string, Grade>;
}

/** What was typed, all of it checked before anything is written. */
const readGrades = (base: QuiltCase, sample: readonly Regraded[], typed: readonly string[]): Given => {
  const units = new Map<string, UnitState>();
  const families = new Map<string, Grade>();
  const problems: Problem[] = [];
  const wrong = (code: Problem['code'], what: string, cure: string, near?: string): void => {
    problems.push({
      code,
      severity: 'error',
      what,
      cure,
      ...(near === undefined ? {} : { didYouMean: near }),
    });
  };
  const names = sample.map(({ at }) => at);
  const letters = Object.keys(base.survey.families ?? {});
  for (const one of typed) {
    const [, name = '', value = ''] = /^([^=]*)=(.*)$/.exec(one) ?? [];
    const unit = name.toUpperCase();
    if (letters.includes(name)) {
      const grade = GRADES.find((each) => each === value);
      if (grade !== undefined) families.set(name, grade);
      else
        wrong(
          'not-an-option',
          `"${one}": ${value} is not a grade`,
          `Use one of ${GRADES.join(', ')}.`,
          suggest(value, GRADES),
        );
    } else if (names.includes(unit)) {
      const state =
        BY_MARK.get(value) ?? Object.keys(UNIT_STATES).find((each): each is UnitState => each === value);
      if (state !== undefined) units.set(unit, state);
      else {
        const states = Object.keys(UNIT_STATES);
        wrong(
          'not-an-option',
          `"${one}": ${value} is not a state`,
          `Use one of ${states.join(', ')}, or its mark on the map.`,
          suggest(value, states),
        );
      }
    } else {
      wrong(
        'no-such-position',
        `"${one}": ${name === '' ? one : name} is neither a unit to be graded again nor a fabric of this quilt`,
        `Units to grade are ${names.join(', ')}; fabrics are ${letters.join(', ') || 'not named'}. Write A3=hole.`,
        suggest(unit, names),
      );
    }
  }
  if (problems.length > 0) throw new ProblemError(problems);
  return { units, families };
};

/** Units of a case graded a second time, as typed. */
interface Again {
  readonly base: QuiltCase;
  readonly path: string;
  readonly sample: readonly Regraded[];
  readonly grades: readonly string[];
}

const keep = async (
  typed: Typed,
  { base, path, sample, grades }: Again,
  vocabulary: Parameters<typeof findingReader>[0],
  today: string,
): Promise<string> => {
  const helper = textOption(typed, 'as');
  if (helper === undefined)
    return fail('usage', 'grades were given, but not whose they are', { cure: 'Add --as helper-b.' });
  const file = secondSurveyPath(path, base, helper);
  const { units, families } = readGrades(base, sample, grades);
  const map = writeUnits(regradedMap(base, units, sample));
  const text = [
    `# A sample graded again, blind: ${units.size} of ${sample.length} units, ${families.size} fabrics.`,
    'mendwise: 1',
    `survey_of: ${base.case}`,
    `by: ${helper}`,
    'survey:',
    '  seen: in hand',
    `  by: ${helper}`,
    `  on: ${today}`,
    ...(families.size === 0
      ? []
      : ['  families:', ...[...families].map(([letter, grade]) => `    ${letter}: { fragility: ${grade} }`)]),
    '  units: |',
    ...map
      .trimEnd()
      .split('\n')
      .map((line) => `    ${line}`),
    '',
  ].join('\n');
  const reading = readSecondSurvey(file, text, findingReader(vocabulary), base);
  if (reading.survey === undefined) throw new ProblemError(reading.problems);
  await saveText(file, text);
  return file;
};
