import { decideBy } from '../../decision/decide-by.ts';
import { quickVerdicts } from '../../decision/verdicts.ts';
import { asOf } from '../as-of.ts';
import { caseAtHand } from '../case-at-hand.ts';
import { type Action, studioOptions } from '../command.ts';
import { optimizeLater } from '../short-lived.ts';
import { openStudio } from '../studio.ts';

/** The answer alone, as data. It has a bundle of its own, with no more in it than that takes: scripts ask it over and over. */
export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const { case: quiltCase, warnings } = await caseAtHand(typed.args[0] ?? '', studio);
  if (warnings.length > 0) (await import('../tell-problems.ts')).tellProblems(warnings, terminal);
  optimizeLater();
  const { answer } = await decideBy(
    quickVerdicts,
    quiltCase,
    studio.knowledge,
    studio.practice,
    asOf(typed, terminal),
  );
  terminal.out(JSON.stringify(answer, null, 2));
  return 0;
};
