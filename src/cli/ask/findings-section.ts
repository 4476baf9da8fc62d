import { type FindingDef, pathOf } from '../../findings/vocabulary.ts';
import { findingQuestion } from './finding-question.ts';
import { isNeedless } from './needless.ts';
import type { Hearing, Question, Section } from './question.ts';

/** The quilt's findings that pass `wanted`, group by group in the order of the vocabulary; needless ones fall away. */
export const findingsSection =
  (wanted: (def: FindingDef, hearing: Hearing) => boolean): Section =>
  (hearing) => {
    const { answers, vocabulary } = hearing;
    return vocabulary.groups.flatMap(({ id, title }) =>
      [...vocabulary.findings.values()]
        .filter((def) => def.group === id && def.per === 'quilt' && def.question !== undefined)
        .filter((def) => wanted(def, hearing) && !isNeedless(def, answers, vocabulary))
        .sort((one, other) => one.order - other.order)
        .flatMap((def): Question[] => {
          const path = pathOf(def);
          return path === undefined ? [] : [findingQuestion(def, hearing, { path, intro: [title] })];
        }),
    );
  };
