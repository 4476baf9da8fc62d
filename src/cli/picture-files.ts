import { readOrdinaryFile } from '../casebook/load-text.ts';

/** Bytes. A document with larger pictures could not be sent by mail. */
const LARGEST = 12_000_000;

/** Kinds of pictures a page can show, by how their files begin. A name's ending proves nothing. */
const KINDS: readonly { readonly type: string; readonly begins: (bytes: Buffer) => boolean }[] = [
  { type: 'image/jpeg', begins: (bytes) => bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff])) },
  {
    type: 'image/png',
    begins: (bytes) => bytes.subarray(0, 8).equals(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')),
  },
  { type: 'image/gif', begins: (bytes) => bytes.subarray(0, 4).toString('latin1') === 'GIF8' },
  {
    type: 'image/webp',
    begins: (bytes) =>
      bytes.subarray(0, 4).toString('latin1') === 'RIFF' &&
      bytes.subarray(8, 12).toString('latin1') === 'WEBP',
  },
  {
    type: 'image/svg+xml',
    begins: (bytes) =>
      /^\s*(<\?xml[^>]*>\s*)?(<!--[\s\S]*?-->\s*)?<svg[\s>]/.test(bytes.subarray(0, 2000).toString('utf8')),
  },
];

/** A picture file as a data address; undefined where there is no such file, it is too large, or it is no picture. */
export async function pictureData(path: string): Promise<string | undefined> {
  let bytes: Buffer;
  try {
    bytes = await readOrdinaryFile(path, LARGEST);
  } catch {
    return undefined;
  }
  const kind = KINDS.find(({ begins }) => begins(bytes));
  return kind === undefined ? undefined : `data:${kind.type};base64,${bytes.toString('base64')}`;
}
