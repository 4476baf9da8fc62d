import { resolve } from 'node:path';
import { coverage } from '../../../analysis/coverage.ts';
import { studyOf } from '../../../analysis/study.ts';
import { counted } from '../../../documents/phrases.ts';
import { toHtml } from '../../../documents/render/html.tsx';
import { type BookEntry, rulebookBook } from '../../../documents/rulebook-book.ts';
import { inForce } from '../../../rulebook/assemble.ts';
import { sayHistory, sayRule } from '../../../rulebook/say-rule.ts';
import { allCases } from '../../../store/case-files.ts';
import { openStudio, relativeName } from '../../../store/studio.ts';
import { tellProblems } from '../../../store/terminal.ts';
import { refusePaper, writePaper } from '../../../store/write-out.ts';
import { type Action, asOf, studioOptions, textOption } from '../../command.ts';

export const action: Action = async (typed, terminal) => {
  const path = resolve(textOption(typed, 'output') ?? 'rulebook.html');
  const replace = typed.options.replace === true;
  refusePaper(path, replace);
  const studio = await openStudio(studioOptions(typed));
  const day = asOf(typed, terminal);
  const rulebook = inForce(studio.knowledge.rulebook, day);
  const knowledge = { ...studio.knowledge, rulebook };
  const { texts, problems } = await allCases(studio);
  tellProblems(problems, terminal);
  const studies = texts.map((text) => studyOf(text, knowledge, studio.practice, day));
  const overridden = texts.flatMap(({ quiltCase }) =>
    (quiltCase.decisions ?? []).flatMap(({ overrides }) => overrides ?? []),
  );
  const own = new Set(texts.filter(({ from }) => from === 'studio').map(({ quiltCase }) => quiltCase.case));
  const entries = coverage(rulebook.rules, studies, knowledge.subjects).map(
    ({ rule, cases }): BookEntry => ({
      said: sayRule(rule, knowledge.subjects, studio.practice.settings),
      history: sayHistory(rule),
      provedBy: [...cases.true].filter((name) => !own.has(name)).sort(),
      fired: [...cases.true].filter((name) => own.has(name)).length,
      overridden: overridden.filter((id) => id === rule.id).length,
    }),
  );
  const html = toHtml(
    rulebookBook(entries, {
      studio: studio.file.studio,
      contact: studio.file.contact,
      asOf: day,
      version: rulebook.version,
      digest: rulebook.digest,
      cases: texts.length,
    }),
  );
  await writePaper(path, html, replace, terminal);
  terminal.out(`Wrote ${counted(entries.length, 'rule')} to ${relativeName(path)}.`);
  return 0;
};
