import { escaped } from './escaped.ts';
import type { Page, PageSection, Piece } from './page.ts';
import { stepPicture } from './step-picture.ts';

const STYLE = `
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 60rem; padding: 2rem 1.5rem; background: #fff; color: #1d1a16;
  font: 1rem/1.5 Georgia, 'Times New Roman', serif; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0 0 .3rem; }
h2 { font-size: 1.3rem; margin: 2rem 0 .5rem; padding-top: .6rem; border-top: 2px solid #1d1a16; break-after: avoid; }
h3 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; break-after: avoid; }
p { margin: .4rem 0; }
ul { margin: .3rem 0 .6rem; padding-left: 1.3rem; }
table { border-collapse: collapse; width: 100%; margin: .6rem 0 1rem; font-size: .95rem; break-inside: avoid; }
caption { text-align: left; font-style: italic; padding-bottom: .3rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .7rem .3rem 0; border-bottom: 1px solid #8b8378; }
thead th { border-bottom: 2px solid #1d1a16; }
tbody th { font-weight: normal; }
.wide { overflow-x: auto; }
figure { margin: .6rem 0 1rem; break-inside: avoid; }
figcaption { font-style: italic; }
svg { max-width: 100%; height: auto; }
@media print { body { padding: 0; max-width: none; font-size: 10.5pt; } }
@page { margin: 18mm; }
`;

/** One file, no script, nothing from a network; readable in black and white and on paper. */
export const pageHtml = ({ title, lead, sections }: Page): string =>
  [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(title)}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${escaped(title)}</h1>`,
    `<p>${escaped(lead)}</p>`,
    ...sections.map(section),
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');

const section = ({ title, under, pieces }: PageSection): string => {
  const level = under === true ? 'h3' : 'h2';
  return [`<${level}>${escaped(title)}</${level}>`, ...pieces.map(piece)].join('\n');
};

const PIECES: { readonly [K in Piece['kind']]: (piece: Extract<Piece, { kind: K }>) => string } = {
  paragraph: ({ text }) => `<p>${escaped(text)}</p>`,
  list: ({ items }) => `<ul>\n${items.map((item) => `<li>${escaped(item)}</li>`).join('\n')}\n</ul>`,
  table: ({ caption, columns, rows }) => {
    const head = columns.map((name) => `<th scope="col">${escaped(name)}</th>`).join('');
    const body = rows.map(([name = '', ...cells]) => {
      // A name left blank goes on with the row above.
      const first = name === '' ? '<td></td>' : `<th scope="row">${escaped(name)}</th>`;
      return `<tr>${first}${cells.map((cell) => `<td>${escaped(cell)}</td>`).join('')}</tr>`;
    });
    // Wider than a small window, it is moved by keyboard as well (WCAG 2.2, 2.1.1).
    return `<div class="wide" role="group" aria-label="${escaped(caption)}" tabindex="0"><table><caption>${escaped(caption)}</caption><thead><tr>${head}</tr></thead><tbody>\n${body.join('\n')}\n</tbody></table></div>`;
  },
  steps: (steps) =>
    `<figure>${stepPicture(steps)}<figcaption>${escaped(steps.caption)}</figcaption></figure>`,
};

const piece = <K extends Piece['kind']>(one: Extract<Piece, { kind: K }>): string =>
  (PIECES[one.kind as K] as (piece: Extract<Piece, { kind: K }>) => string)(one);
