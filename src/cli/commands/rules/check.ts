import { CHECKS, checkRules } from '../../../analysis/check/all.ts';
import { type Diagnostic, examine } from '../../../analysis/rulebook-model.ts';
import { counted } from '../../../documents/terminal/labels.ts';
import { paragraph } from '../../../documents/terminal/layout.ts';
import { printRemark } from '../../../documents/terminal/rule.ts';
import { openStudio } from '../../../store/studio.ts';
import { type Action, asOf, studioOptions } from '../../command.ts';

export const action: Action = async (typed, terminal) => {
  // Faults of writing in any file are thrown here, all together, before there is anything to analyse.
  const { knowledge, rulesFolder } = await openStudio(studioOptions(typed));
  const day = asOf(typed, terminal);
  const examined = examine(knowledge.rulebook, knowledge, day);
  const { remarks, notCovered } = checkRules(examined);
  const of = (severity: Diagnostic['severity']): Diagnostic[] =>
    remarks.filter((each) => each.severity === severity);
  const [errors, warnings, notes] = [of('error'), of('warning'), of('note')];
  const failed = errors.length > 0;
  if (typed.options.json === true) {
    terminal.out(
      JSON.stringify(
        {
          rules: examined.rules.length,
          as_of: day,
          remarks: remarks.map(({ rules, ...rest }) => ({
            ...rest,
            rules: rules.map(({ id, place: { file, line, column } }) => ({ rule: id, file, line, column })),
          })),
          not_covered: notCovered,
        },
        null,
        2,
      ),
    );
    return failed ? 1 : 0;
  }
  const style = { color: terminal.color, width: terminal.width };
  const shown = [...errors, ...warnings, ...(typed.options.notes === true ? notes : [])];
  const sums = [
    counted(errors.length, 'error'),
    counted(warnings.length, 'warning'),
    counted(notes.length, 'note'),
  ].join(', ');
  const hint = notes.length > 0 && typed.options.notes !== true ? ' (--notes shows the notes)' : '';
  terminal.out(
    [
      ...shown.map((diagnostic) => printRemark(diagnostic, style)),
      paragraph(
        `${counted(examined.rules.length, 'rule')} in ${rulesFolder}, in force on ${day}, read without fault; ${CHECKS.length} kinds of analysis: ${sums}${hint}.`,
        style,
      ),
      ...notCovered.map((sentence) => paragraph(sentence, style, '  ')),
    ].join('\n\n'),
  );
  return failed ? 1 : 0;
};
