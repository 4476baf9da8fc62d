import { clean } from '../clean.ts';
import { paragraph, type Section } from '../model.ts';
import { sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';

/** What the work agreed on is made with, and how its cloth is cut. */
export function materialsSection(writing: Writing, title: string, caption: string): Section {
  const items = writing.agreed?.estimates.materials.items ?? [];
  return {
    title,
    blocks:
      items.length === 0
        ? [paragraph('None beyond thread.')]
        : [
            {
              kind: 'table',
              caption,
              columns: ['What', 'How much', 'About'],
              rows: items.map(({ what, amount, unit, note }) => ({
                name: sentenceCase(clean(what)),
                cells: [amountWords(amount, unit, writing), clean(note ?? '–')],
              })),
            },
          ],
  };
}

/** Yards and inches in the studio's units; pieces and spools as they are. */
function amountWords(amount: number, unit: string, writing: Writing): string {
  const rounded = Math.round(amount * 1000) / 1000;
  if (unit === 'yd' && writing.papers.studio.units === 'metric') return writing.length(amount * 36);
  if (unit === 'in') return writing.length(amount);
  if (rounded === 1) return `1 ${unit.replace(/s$/, '')}`;
  return `${rounded} ${unit}`;
}
