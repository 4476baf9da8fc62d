import { clean } from '../clean.ts';
import type { Block, Section } from '../model.ts';
import { sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';

/** Photographs where their files are; the others by name. */
export function photoSection(writing: Writing): Section[] {
  const { photos } = writing.papers;
  if (photos.length === 0) return [];
  const about = ({ of, when, file }: (typeof photos)[number]): string =>
    clean([of ?? file, ...(when === undefined ? [] : [when])].join(', '));
  const absent = photos.filter(({ data }) => data === undefined);
  return [
    {
      title: 'Photographs',
      blocks: [
        ...photos.flatMap((photo): Block[] =>
          photo.data === undefined
            ? []
            : [
                {
                  kind: 'photo',
                  data: photo.data,
                  alt: `Photograph: ${about(photo)}`,
                  caption: sentenceCase(about(photo)),
                },
              ],
        ),
        ...(absent.length === 0
          ? []
          : [
              {
                kind: 'list',
                items: absent.map(
                  (photo) =>
                    `${sentenceCase(about(photo))}: not in the folder of the case (${clean(photo.file)})`,
                ),
              } as const,
            ]),
      ],
    },
  ];
}
