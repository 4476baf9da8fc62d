import type { QuiltCase } from '../casebook/model.ts';
import { contextOf } from '../decision/context.ts';
import { decideQuick } from '../decision/decide.ts';
import { unsafeReason } from '../documents/sections/safety.ts';
import { safetyRows } from '../documents/terminal/answer.ts';
import { ProblemError } from '../problems/problem.ts';
import type { Studio } from '../store/studio.ts';
import type { Terminal } from '../store/terminal.ts';

/** Refuses what would have somebody handle a quilt while safety stands in the way; `what` is said of it in a clause. */
export function refuseUnsafe(quiltCase: QuiltCase, what: string, studio: Studio, terminal: Terminal): void {
  const answer = answerToday(quiltCase, studio, terminal);
  const reason = unsafeReason({ answer });
  if (reason === undefined) return;
  const code = answer.safety.stops.length > 0 ? 'stop-stands' : 'safety-unanswered';
  throw new ProblemError([{ code, severity: 'error', what: `${what}: ${reason}` }]);
}

/** Tells what to do now with the quilt, where a hazard stands: what is written down is a fact and is kept all the same. */
export function tellHazard(quiltCase: QuiltCase, studio: Studio, terminal: Terminal): void {
  const { safety } = answerToday(quiltCase, studio, terminal);
  if (safety.stops.length === 0) return;
  const rows = safetyRows(
    { safety: { ...safety, unanswered: [] } },
    { color: terminal.color, width: terminal.width },
  );
  terminal.err([...rows, ''].join('\n').trimStart());
}

const answerToday = (quiltCase: QuiltCase, studio: Studio, terminal: Terminal) =>
  decideQuick(quiltCase, contextOf(studio, terminal.today())).answer;
