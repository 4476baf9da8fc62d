import type { Remark } from '../../analysis/examined.ts';
import { CODES } from '../../problems/codes.ts';
import { bold, faint, type PageStyle, paragraph } from './layout.ts';

/** A remark with the place of every rule concerned and the case in which it shows. */
export function printRemark(remark: Remark, style: PageStyle): string {
  const { severity, what, code, rules, example } = remark;
  const entry = CODES[code];
  return [
    paragraph(`${bold(`${severity}:`, style)} ${what} ${faint(`[${code}]`, style)}`, style, '', '  '),
    ...rules.map(({ id, place }) => `  ${place.file}:${place.line}:${place.column}: ${id}`),
    ...(example.length === 0
      ? []
      : ['  For example:', ...example.map((line) => paragraph(line, style, '    - ', '      '))]),
    ...(severity === 'note'
      ? []
      : [
          paragraph(remark.why ?? entry.cause, style, '  Why: '),
          paragraph(remark.cure ?? entry.cure, style, '  Do: '),
        ]),
  ].join('\n');
}
