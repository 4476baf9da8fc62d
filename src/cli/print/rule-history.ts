import type { SaidWording } from '../../rulebook/say-history.ts';
import { type PageStyle, paragraph } from './layout.ts';

/** Earlier wordings of a rule, the latest change first. Nothing where the history was not asked for. */
export function printHistory(was: readonly SaidWording[] | undefined, style: PageStyle): string[] {
  if (was === undefined) return [];
  if (was.length === 0) return ['  History: it reads as it was first written.'];
  return [
    '  History:',
    ...was.flatMap(({ until, reason, changed }) => [
      paragraph(`changed on ${until}: ${reason}`, style, '    '),
      ...changed.map((line) => paragraph(`before, ${line}`, style, '      ')),
    ]),
  ];
}
