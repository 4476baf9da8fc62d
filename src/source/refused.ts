import type { Document } from 'yaml';
import { isCollection, isPair, isScalar, visit } from 'yaml';
import type { Problem } from '../problems/problem.ts';
import type { TextPlaces } from './text-place.ts';

/** Sound YAML that is not used here: borrowed values, merged groups, names that are themselves groups. */
export const refusedProblems = (doc: Document, places: TextPlaces): Problem[] => {
  const problems: Problem[] = [];
  const alias = (what: string, offset: number, length: number): void => {
    problems.push({ code: 'yaml-alias', severity: 'error', what, place: places.at(offset, length) });
  };
  visit(doc, {
    Alias: (_, node) => {
      const [start, end] = node.range ?? [0, 1];
      alias(`*${node.source} borrows a value from elsewhere in the file`, start, end - start);
    },
    Node: (key, node, parents) => {
      if ('anchor' in node && node.anchor) {
        // The anchor stands just before the node it names; find it rather than point beside it.
        const from = node.range?.[0] ?? 0;
        const found = places.at(from).text.lastIndexOf(`&${node.anchor}`);
        const place = places.at(from);
        problems.push({
          code: 'yaml-alias',
          severity: 'error',
          what: `&${node.anchor} marks a value to be borrowed elsewhere`,
          place: found === -1 ? place : places.onLine(place.line, found + 1, node.anchor.length + 1),
        });
      }
      if (key === 'key' && isScalar(node) && node.value === '<<') {
        alias('<< merges another group into this one', node.range?.[0] ?? 0, 2);
      }
      if (key === 'key' && isScalar(node) && node.value === '__proto__') {
        // The one name that many programs, zod among them, pass over in silence.
        problems.push({
          code: 'unknown-key',
          severity: 'error',
          what: '__proto__ cannot be used as a name',
          place: places.at(node.range?.[0] ?? 0, 9),
        });
      }
      if (key === 'key' && isCollection(node) && isPair(parents.at(-1))) {
        problems.push({
          code: 'yaml-syntax',
          severity: 'error',
          what: 'a list or group stands where a name belongs',
          cure: 'Write a plain name before the colon.',
          place: places.at(node.range?.[0] ?? 0),
        });
      }
    },
  });
  return problems;
};
