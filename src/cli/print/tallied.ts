import type { Tally } from '../../analysis/tried/tally.ts';
import { whole } from '../../quantities/whole.ts';
import { counted } from './labels.ts';
import { bold, heading, type PageStyle, paragraph } from './layout.ts';
import { printChange } from './tried.ts';

/** What comes of many generated cases: how many change, in what, because of which rules; then the gravest. */
export function printTallied(tally: Tally, rules: readonly string[], seed: number, style: PageStyle): string {
  const { cases, unread, changed, of, because, examples } = tally;
  const share = cases === 0 ? 0 : Math.round((1000 * changed) / cases) / 10;
  const sums = (named: Readonly<Record<string, number>>): string =>
    Object.entries(named)
      .sort(([, a], [, b]) => b - a)
      .map(([name, count]) => `${name}: ${whole(count)}`)
      .join('; ');
  const differ = `${counted(rules.length, 'rule')} differ${rules.length === 0 ? '' : `: ${rules.join(', ')}`}`;
  return [
    paragraph(
      `${counted(changed, 'case')} (${share} %) of ${counted(cases, 'generated case')} (seed ${seed}) change; ${differ}.`,
      style,
    ),
    ...(unread === 0
      ? []
      : [
          paragraph(
            `${counted(unread, 'case')} could not be read by either book: nothing was tried on them.`,
            style,
          ),
        ]),
    ...(changed === 0
      ? []
      : [
          paragraph(sums(of), style, `  ${bold('of', style)} `, '    '),
          paragraph(sums(because), style, `  ${bold('because of', style)} `, '    '),
          heading(`The gravest ${examples.length === 1 ? 'change' : `${examples.length} changes`}`, style),
          ...examples.map((change) => printChange(change, style)),
        ]),
  ].join('\n');
}
