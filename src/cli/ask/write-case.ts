import { isDeepStrictEqual } from 'node:util';
import { Document, isMap, isScalar, parseDocument, visit } from 'yaml';
import { type Edit, editCase } from '../../casebook/edit-case.ts';
import type { Source } from '../../source/source.ts';
import { type Answers, ASIDE, answerAt, leavesOf, UNKNOWN, withAnswer } from './answers.ts';
import { caseAnswers } from './candidate.ts';

const ORDER = ['mendwise', 'case', 'opened', 'reference', 'client', 'quilt', 'history', 'survey'];

const rank = (name: string): number => {
  const at = ORDER.indexOf(name);
  return at === -1 ? ORDER.length : at;
};

/** A new case as text: the order of the contract, small groups on one line, maps one row a line. */
export const newCaseText = (name: string, opened: string, said: Answers): string => {
  const { mendwise: _, case: __, ...answers } = caseAnswers(said);
  const whole: Answers = { mendwise: 1, case: name, opened, ...answers };
  const sorted = Object.entries(whole).sort(([one], [other]) => rank(one) - rank(other));
  const doc = new Document(Object.fromEntries(sorted), { version: '1.2', schema: 'core' });
  visit(doc, {
    Map: (key, node, path) => {
      const deep = path.filter(isMap).length >= 2 || typeof key === 'number';
      const flat = node.items.every(
        ({ value }) => isScalar(value) && !(typeof value.value === 'string' && value.value.includes('\n')),
      );
      const parent = path.at(-1);
      const findings = typeof parent === 'object' && 'key' in parent && String(parent.key) === 'findings';
      if (deep && flat && !findings) node.flow = true;
    },
  });
  const text = doc.toString({ lineWidth: 0, flowCollectionPadding: true });
  return parseDocument(text).errors.length === 0 ? text : String(doc);
};

/** What to change in a case so that it says what was said: only values that differ; "not known" takes a line out. */
export const editsFor = (source: Source, said: Answers): Edit[] => {
  const { mendwise: _, case: __, ...answers } = withAnswer(said, [ASIDE], undefined);
  return leavesOf(answers).flatMap(({ path, value }): Edit[] => {
    const before = answerAt(source.value, path);
    if (value === UNKNOWN) return before === undefined ? [] : [{ path, value: undefined }];
    const told = Array.isArray(value) ? answerAt(caseAnswers(answers), path) : value;
    return isDeepStrictEqual(JSON.stringify(before), JSON.stringify(told)) ? [] : [{ path, value: told }];
  });
};

export const editedCaseText = (source: Source, said: Answers): string =>
  editCase(source, editsFor(source, said));
