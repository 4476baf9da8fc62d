import { dirname, join, resolve } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import type { Decision } from '../decision/decide.ts';
import type { Papers } from '../documents/papers.ts';
import { textsOrThrow } from '../documents/texts/read-texts.ts';
import type { Texts } from '../documents/texts/texts.ts';
import type { Problem } from '../problems/problem.ts';
import type { OpenCase } from './open-case.ts';
import { pictureData } from './picture-files.ts';
import { relativeName, type Studio, shippedFolder } from './studio.ts';

/** English as written where months have names: readable on both sides of the ocean. */
const USUAL_LANGUAGE = 'en-GB';

/** Gathers what a document is made from: the studio's words, its logo, and the photographs that exist. */
export async function gatherPapers(
  decision: Decision,
  opened: OpenCase,
  studio: Studio,
): Promise<{ papers: Papers; warnings: Problem[] }> {
  const { texts, warnings: wordless } = await textsOf(studio);
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

/** The studio's own words; for papers that are newer than its file, the shipped ones. */
async function textsOf({ rulesFolder }: Studio): Promise<{ texts: Texts; warnings: Problem[] }> {
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
