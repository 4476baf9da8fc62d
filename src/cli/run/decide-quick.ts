import { decide } from '../../decision/decide.ts';
import { asOf } from '../as-of.ts';
import { type Action, studioOptions } from '../command.ts';
import { caseAtHand } from '../kept-case.ts';
import { openStudio } from '../studio.ts';

/** The answer alone, as data. It has a bundle of its own, with no more in it than that takes: scripts ask it over and over. */
export const action: Action = async (typed, terminal) => {
  const { knowledge, practice, ...studio } = await openStudio(studioOptions(typed));
  const { case: quiltCase, warnings } = await caseAtHand(typed.args[0] ?? '', {
    knowledge,
    practice,
    ...studio,
  });
  if (warnings.length > 0) {
    const { printProblems } = await import('../../problems/print.ts');
    terminal.err(printProblems(warnings, { color: terminal.color, width: terminal.width }));
  }
  const { answer } = await decide(quiltCase, knowledge, practice, asOf(typed, terminal));
  terminal.out(JSON.stringify(answer, null, 2));
  return 0;
};
