import { figureSet, isFigureSet } from '../../figures/figure-set.ts';
import type { Figure } from '../../figures/model.ts';
import type { FindingDef, Vocabulary } from '../../findings/vocabulary.ts';
import type { Knowledge, TextFile } from '../knowledge.ts';
import type { Rulebook } from '../model.ts';
import { subjectsOfVocabulary } from '../subjects-of-vocabulary.ts';
import { placeFinder, placeKeeper } from './places.ts';
import { findRule, type KeptRule, keepRule } from './rules.ts';

type Level = readonly FindingDef[];

/** What was read and checked, as JSON can hold it; places are kept as numbers. */
export interface KeptKnowledge {
  readonly vocabulary: Omit<Vocabulary, 'findings' | 'family' | 'unit'> & {
    readonly findings: Level;
    readonly family: Level;
    readonly unit: Level;
  };
  readonly figures: readonly Figure[];
  /** Index of the file the figures stand in. */
  readonly figureFile: number;
  readonly rulebook: Omit<Rulebook, 'rules'> & { readonly rules: readonly KeptRule[] };
}

/** Reading YAML and checking it is the dearest part of a start; what came of it can be kept. */
export function keepKnowledge(knowledge: Knowledge, files: readonly TextFile[]): KeptKnowledge {
  const { vocabulary, figures, rulebook } = knowledge;
  if (!isFigureSet(figures)) throw new Error('these figures cannot be listed');
  const keep = placeKeeper(files);
  return {
    vocabulary: {
      ...vocabulary,
      findings: [...vocabulary.findings.values()],
      family: [...vocabulary.family.values()],
      unit: [...vocabulary.unit.values()],
    },
    figures: figures.list,
    figureFile: files.findIndex(({ file }) => file === figures.file),
    rulebook: { ...rulebook, rules: rulebook.rules.map((rule) => keepRule(rule, keep)) },
  };
}

/** The same knowledge again; `files` are those it was read from, under the names they go by now. */
export function findKnowledge(kept: KeptKnowledge, files: readonly TextFile[]): Knowledge {
  const find = placeFinder(files);
  const byId = (level: Level): ReadonlyMap<string, FindingDef> => new Map(level.map((def) => [def.id, def]));
  const vocabulary: Vocabulary = {
    ...kept.vocabulary,
    findings: byId(kept.vocabulary.findings),
    family: byId(kept.vocabulary.family),
    unit: byId(kept.vocabulary.unit),
  };
  return {
    vocabulary,
    figures: figureSet(kept.figures, files[kept.figureFile]?.file ?? 'figures.yaml'),
    rulebook: { ...kept.rulebook, rules: kept.rulebook.rules.map((rule) => findRule(rule, find)) },
    subjects: subjectsOfVocabulary(vocabulary),
  };
}
