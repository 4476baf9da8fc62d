import type { VNode } from 'preact';
import type { Picture } from '../pictures/picture.ts';

/** A picture with its title above, its key below; the key is text, so that it grows with the reader's type. */
export function PictureFigure({ picture }: { picture: Picture }): VNode {
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
