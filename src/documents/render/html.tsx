import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import type { Page, PageSection, Piece, Section, Sheet } from '../model.ts';
import { escaped, stepPicture } from '../pages/survival-section.ts';
import { BlockView } from './blocks.tsx';
import { STYLE } from './style.ts';

/** A whole document as one HTML file: style and pictures inside, no script, nothing fetched. */
export const toHtml = (sheet: Sheet): string =>
  `<!DOCTYPE html>\n${renderToString(<SheetPage sheet={sheet} />)}\n`;

function SheetPage({ sheet }: { sheet: Sheet }): VNode {
  return (
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta
          http-equiv="Content-Security-Policy"
          content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"
        />
        <title>{sheet.title}</title>
        {/* Our own constant, never a case's text. */}
        <style dangerouslySetInnerHTML={{ __html: STYLE }} />
      </head>
      <body>
        <header>
          <Letterhead sheet={sheet} />
          <h1>{sheet.title}</h1>
          <table class="particulars facts">
            <caption class="unseen">About this document</caption>
            <tbody>
              {sheet.particulars.map(({ name, text }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{text}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </header>
        <main>
          {sheet.sections.map((section, index) => (
            <SectionView key={index} section={section} number={index + 1} />
          ))}
        </main>
        <footer>
          <p>{sheet.foot}</p>
        </footer>
      </body>
    </html>
  );
}

function Letterhead({ sheet: { studio, contact, logo } }: { sheet: Sheet }): VNode | null {
  if (studio === undefined && contact === undefined && logo === undefined) return null;
  return (
    <div class="head">
      <div>
        {studio === undefined ? null : <p class="studio">{studio}</p>}
        {contact === undefined ? null : <p class="contact">{contact}</p>}
      </div>
      {logo === undefined ? null : <img class="logo" src={logo} alt={`Logo of ${studio ?? 'the studio'}`} />}
    </div>
  );
}

function SectionView({ section, number }: { section: Section; number: number }): VNode {
  const { title, blocks, apart, page } = section;
  const id = `section-${number}`;
  const views = blocks.map((block, index) => <BlockView key={index} block={block} />);
  const className = apart === true ? 'apart' : page === true ? 'page' : undefined;
  if (title === undefined) return <div>{views}</div>;
  return (
    <section class={className} aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {views}
    </section>
  );
}

const PAGE_STYLE = `
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
    `<style>${PAGE_STYLE}</style>`,
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
