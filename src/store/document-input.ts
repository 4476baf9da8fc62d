import { dirname, join, resolve } from 'node:path';
import type { Decision } from '../decision/decide.ts';
import type { DocumentInput, TextCatalog } from '../documents/document-context.ts';
import { textsOrThrow } from '../documents/read-texts.ts';
import type { Problem } from '../problems/problem.ts';
import type { OpenCase } from './case-store.ts';
import { loadText, readOrdinaryFile } from './load-text.ts';
import { relativeName, type Studio, shippedFolder } from './studio.ts';

/** English as written where months have names: readable on both sides of the ocean. */
const USUAL_LANGUAGE = 'en-GB';

/** Gathers what a document is made from: the studio's words, its logo, and the photographs that exist. */
export async function gatherPapers(
  decision: Decision,
  opened: OpenCase,
  studio: Studio,
): Promise<{ papers: DocumentInput; warnings: Problem[] }> {
  const { texts, warnings: wordless } = await studioTexts(studio.rulesFolder);
  const { file, practice, knowledge } = studio;
  const logo = file.logo === undefined ? undefined : await pictureData(resolve(studio.folder, file.logo));
  const photos = await Promise.all(
    opened.case.photos.map(async ({ file: name, of, when }) => ({
      file: name,
      of,
      when,
      data: await pictureData(resolve(dirname(opened.path), name)),
    })),
  );
  const warnings: Problem[] = [...wordless];
  if (file.logo !== undefined && logo === undefined)
    warnings.push({
      code: 'no-such-file',
      severity: 'warning',
      what: `the logo ${file.logo} is not there, or is no picture a page can show`,
      why: 'Documents go out without it.',
      cure: 'Put a PNG, JPEG, GIF, WebP or SVG file there, under 12 MB, or change "logo" in studio.yaml.',
    });
  return {
    papers: {
      decision,
      vocabulary: knowledge.vocabulary,
      figures: knowledge.figures,
      texts,
      photos,
      studio: {
        name: file.studio,
        contact: file.contact,
        logo,
        language: file.language ?? USUAL_LANGUAGE,
        units: practice.settings.units,
        currency: practice.settings.currency,
        validDays: file.valid_days ?? knowledge.figures.number('studio.valid_days'),
      },
    },
    warnings,
  };
}

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
async function pictureData(path: string): Promise<string | undefined> {
  let bytes: Buffer;
  try {
    bytes = await readOrdinaryFile(path, LARGEST);
  } catch {
    return undefined;
  }
  const kind = KINDS.find(({ begins }) => begins(bytes));
  return kind === undefined ? undefined : `data:${kind.type};base64,${bytes.toString('base64')}`;
}

/** The studio's own words; for papers that are newer than its file, the shipped ones. Throws ProblemError with everything wrong in them. */
export async function studioTexts(rulesFolder: string): Promise<{ texts: TextCatalog; warnings: Problem[] }> {
  const path = join(rulesFolder, 'texts.yaml');
  const shippedPath = join(shippedFolder(), 'rules', 'texts.yaml');
  const own = await loadText(path);
  const name = relativeName(path);
  if (resolve(path) === resolve(shippedPath)) return { texts: textsOrThrow(name, own).texts, warnings: [] };
  const shipped = textsOrThrow(relativeName(shippedPath), await loadText(shippedPath)).texts;
  const { texts, missing } = textsOrThrow(name, own, shipped);
  if (missing.length === 0) return { texts, warnings: [] };
  const some = missing.slice(0, SHOWN).join(', ');
  const more = missing.length > SHOWN ? ` and ${missing.length - SHOWN} more` : '';
  return {
    texts,
    warnings: [
      {
        code: 'missing-key',
        severity: 'warning',
        what: `${name} has no words for ${some}${more}`,
        why: 'This program has papers that the file is older than; the words it came with stand in.',
        cure: `Copy them from ${relativeName(shippedPath)}, and make them sound like you.`,
      },
    ],
  };
}

/** Names of texts told at most. */
const SHOWN = 3;
