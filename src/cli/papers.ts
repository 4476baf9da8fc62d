import { dirname, resolve } from 'node:path';
import type { Decision } from '../decision/decide.ts';
import type { Papers } from '../documents/papers.ts';
import type { Problem } from '../problems/problem.ts';
import type { OpenCase } from './open-case.ts';
import { pictureData } from './picture-files.ts';
import type { Studio } from './studio.ts';
import { studioTexts } from './studio-texts.ts';

/** English as written where months have names: readable on both sides of the ocean. */
const USUAL_LANGUAGE = 'en-GB';

/** Gathers what a document is made from: the studio's words, its logo, and the photographs that exist. */
export async function gatherPapers(
  decision: Decision,
  opened: OpenCase,
  studio: Studio,
): Promise<{ papers: Papers; warnings: Problem[] }> {
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
