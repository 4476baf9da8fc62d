import type { ComponentChildren, VNode } from 'preact';
import type { Block, Words } from '../model.ts';
import type { Picture } from '../pictures/picture.ts';

type Of<Kind extends Block['kind']> = Extract<Block, { kind: Kind }>;

/** Words with stress and with numbers that lead to the list of evidence. */
function Text({ words }: { words: Words }): VNode {
  if (typeof words === 'string') return <>{words}</>;
  return (
    <>
      {words.map((run, index) => {
        if (typeof run === 'string') return run;
        if ('strong' in run) return <strong key={index}>{run.strong}</strong>;
        return (
          <sup key={index}>
            <a href={`#evidence-${run.note}`} aria-label={`what this rests on, number ${run.note}`}>
              {run.note}
            </a>
          </sup>
        );
      })}
    </>
  );
}

const Row = ({ name, children }: { name: string; children: ComponentChildren }): VNode => (
  <tr>
    <th scope="row">{name}</th>
    {children}
  </tr>
);

/** Rows that fit on what is left of most pages; a table no longer than this is never parted. */
const SHORT = 6;

/** A table of more columns is stacked on a narrow screen, each cell under its column's name: words stay whole. */
const NARROW = 4;

/** Every kind of block as HTML. */
const RENDERERS: { readonly [Kind in Block['kind']]: (block: Of<Kind>) => VNode } = {
  paragraph: ({ text, tone }) => (
    <p class={tone}>
      <Text words={text} />
    </p>
  ),
  subheading: ({ text }) => <h3>{text}</h3>,
  list: ({ items, ordered, anchor }) => {
    const entries = items.map((item, index) => (
      <li key={index} id={anchor === undefined ? undefined : `${anchor}-${index + 1}`}>
        <Text words={item} />
      </li>
    ));
    return ordered === true ? <ol>{entries}</ol> : <ul>{entries}</ul>;
  },
  facts: ({ caption, rows }) => (
    <table class="facts">
      <caption class="unseen">{caption}</caption>
      <tbody>
        {rows.map(({ name, text }) => (
          <Row key={name} name={name}>
            <td>
              <Text words={text} />
            </td>
          </Row>
        ))}
      </tbody>
    </table>
  ),
  table: ({ caption, columns, rows }) => (
    <table
      class={['figures', rows.length <= SHORT && 'short', columns.length > NARROW && 'stacks']
        .filter(Boolean)
        .join(' ')}
    >
      <caption>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, cells }, row) => (
          <Row key={row} name={name}>
            {cells.map((cell, index) => (
              <td key={index} data-column={columns[index + 1]}>
                {cell}
              </td>
            ))}
          </Row>
        ))}
      </tbody>
    </table>
  ),
  compare: ({ caption, options, rows }) => (
    <table class="compare">
      <caption class="unseen">{caption}</caption>
      <thead>
        <tr>
          {options.map((option) => (
            <th key={option} scope="col">
              {option}
            </th>
          ))}
        </tr>
      </thead>
      {rows.map(({ name, cells }) => (
        <tbody key={name}>
          <tr>
            <th scope="rowgroup" colSpan={options.length}>
              {name}
            </th>
          </tr>
          <tr>
            {cells.map((parts, index) => (
              <td key={index} data-option={options[index]}>
                {parts.map((part, line) => (
                  <p key={line}>
                    <Text words={part} />
                  </p>
                ))}
              </td>
            ))}
          </tr>
        </tbody>
      ))}
    </table>
  ),
  picture: ({ picture }) => <PictureFigure picture={picture} />,
  pictures: ({ pictures }) => (
    <div class="pictures">
      {pictures.map((picture) => (
        <PictureFigure key={picture.id} picture={picture} />
      ))}
    </div>
  ),
  photo: ({ data, alt, caption }) => (
    <figure>
      <img src={data} alt={alt} />
      <figcaption>{caption}</figcaption>
    </figure>
  ),
  choices: ({ question, options, lines = 0 }) => (
    <div class="hold">
      <p>
        <strong>{question}</strong>
      </p>
      <ul class="choices">
        {options.map((option, index) => (
          <li key={index}>
            <span class="box" aria-hidden="true" />
            <span>
              <Text words={option} />
            </span>
          </li>
        ))}
      </ul>
      {Array.from({ length: lines }, (_, index) => (
        <p key={index} class="rule" />
      ))}
    </div>
  ),
  signatures: ({ labels }) => (
    <ul class="signatures">
      {labels.map((label) => (
        <li key={label}>{label}</li>
      ))}
    </ul>
  ),
  address: ({ lines }) => (
    <address>
      {lines.map((line) => (
        <div key={line}>{line}</div>
      ))}
    </address>
  ),
};

export function BlockView<Kind extends Block['kind']>({ block }: { block: Of<Kind> }): VNode {
  const render = RENDERERS[block.kind] as (block: Of<Kind>) => VNode;
  return render(block);
}

/** A picture with its title above, its key below; the key is text, so that it grows with the reader's type. */
function PictureFigure({ picture }: { picture: Picture }): VNode {
  return (
    <figure>
      <figcaption>{picture.title}</figcaption>
      {picture.svg}
      {picture.key.length === 0 ? null : (
        <ul class="key">
          {picture.key.map(({ swatch, words }) => (
            <li key={words}>
              {swatch}
              <span>{words}</span>
            </li>
          ))}
        </ul>
      )}
    </figure>
  );
}
