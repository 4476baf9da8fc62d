import type { Problem } from '../../problems/problem.ts';
import { LAYOUT_RULES } from '../positions.ts';
import { type Check, type CheckContext, type Look, looks, written } from './check.ts';

const CAUSES = ['thread', 'cloth', 'allowance'] as const;
const error = { code: 'sum-mismatch', severity: 'error' } as const;

/** So many seams do not come to be all open by chance. */
const MANY = 20;

const counted = ({ source, quiltCase }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const joins = survey.joins;
  if (!joins) return [];
  const at = (name: string) => source.place([...path, 'joins', name]);
  const problems: Problem[] = [];
  const { inspected, open } = joins;
  const causes = CAUSES.flatMap((cause) => (joins[cause] === undefined ? [] : [joins[cause]]));
  const sum = causes.reduce((total, count) => total + count, 0);
  if (open !== undefined && (causes.length === CAUSES.length ? sum !== open : sum > open)) {
    const what = `thread, cloth and allowance add up to ${sum}, but ${open} joins are open`;
    problems.push({ ...error, what, place: at('open') });
  }
  if (open === undefined && inspected !== undefined && sum > inspected) {
    const what = `thread, cloth and allowance add up to ${sum}, but only ${inspected} joins were inspected`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  if (open !== undefined && inspected !== undefined && open > inspected) {
    const what = `${open} joins are open, but only ${inspected} were inspected`;
    problems.push({ ...error, what, place: at('open') });
  }
  const total = layout && LAYOUT_RULES[layout.kind].joins(layout);
  const cloth = quiltCase.quilt.construction === 'wholecloth';
  if (inspected !== undefined && total !== undefined && !cloth && inspected > total) {
    const what = `${inspected} joins were inspected, but the layout has only ${total}`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  const broken = open ?? sum;
  if (inspected === undefined && total !== undefined && !cloth && broken > total) {
    const what = `${broken} joins are open, but the layout has only ${total}`;
    problems.push({
      ...error,
      what,
      place: open === undefined ? source.place([...path, 'joins'], 'key') : at('open'),
    });
  }
  if (inspected !== undefined && inspected >= MANY && open === inspected) {
    const what = `all ${inspected} joins inspected are open`;
    const cure = 'Count under inspected every join looked at, the sound ones too.';
    problems.push({ code: 'suspicious', severity: 'warning', what, cure, place: at('inspected') });
  }
  const listed = joins.open_at?.length;
  const stated = written(source, [...path, 'joins', 'open']);
  if (listed !== undefined && typeof stated === 'number' && stated < listed) {
    const what = `${listed} open joins are listed under open_at, but open says ${stated}`;
    problems.push({ ...error, what, place: at('open') });
  } else if (listed !== undefined && typeof stated === 'number' && stated > listed) {
    const what = `open says ${stated}, but open_at lists only ${listed}`;
    problems.push({ code: 'suspicious', severity: 'warning', what, place: at('open') });
  }
  return problems;
};

/** Joins against each other and against the layout. */
export const checkJoins: Check = (context) => looks(context).flatMap((look) => counted(context, look));
