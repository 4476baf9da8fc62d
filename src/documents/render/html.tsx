import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import type { Section, Sheet } from '../model.ts';
import { BlockView } from './blocks.tsx';
import { STYLE } from './style.ts';

/** A whole document as one HTML file: style and pictures inside, no script, nothing fetched. */
export const toHtml = (sheet: Sheet): string =>
  `<!DOCTYPE html>\n${renderToString(<Page sheet={sheet} />)}\n`;

function Page({ sheet }: { sheet: Sheet }): VNode {
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
