import type { Document, Scalar, YAMLMap } from 'yaml';
import { isCollection, isMap, isPair, isScalar, visit } from 'yaml';
import type { Problem } from '../problems/problem.ts';
import { keyText } from './source.ts';
import type { TextPlaces } from './text-place.ts';

/**
 * Characters that steer a terminal or turn the direction of writing: nobody sees them, and what is shown is then not
 * what stands there (Unicode Technical Report 36, 2.10, for the directions). Quotes can bring them in as \\e or \\u202E.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what this looks for
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u0084\u0086-\u009F\u200E\u200F\u202A-\u202E\u2066-\u2069]/;

/** Names that stand in a group already. The library compares each with every other, which takes minutes in a long list. */
const repeatedKeys = ({ items }: YAMLMap): Scalar[] => {
  const seen = new Set<string>();
  return items.flatMap(({ key }) => {
    if (!isScalar(key)) return [];
    const name = keyText(key);
    if (seen.has(name)) return [key];
    seen.add(name);
    return [];
  });
};

/** Sound YAML that is not used here: borrowed values, merged groups, names that are themselves groups. */
export const refusedProblems = (doc: Document, places: TextPlaces): Problem[] => {
  const problems: Problem[] = [];
  const alias = (what: string, offset: number, length: number): void => {
    problems.push({ code: 'yaml-alias', severity: 'error', what, place: places.at(offset, length) });
  };
  const duplicate = (key: Scalar): void => {
    const [start, end] = key.range ?? [0, 1];
    const what = `${keyText(key)} stands twice in the same group`;
    problems.push({
      code: 'yaml-duplicate-key',
      severity: 'error',
      what,
      place: places.at(start, end - start),
    });
  };
  visit(doc, {
    Alias: (_, node) => {
      const [start, end] = node.range ?? [0, 1];
      alias(`*${node.source} borrows a value from elsewhere in the file`, start, end - start);
    },
    Node: (key, node, parents) => {
      if (isMap(node)) for (const twice of repeatedKeys(node)) duplicate(twice);
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
      const unseen = isScalar(node) && typeof node.value === 'string' ? UNSEEN.exec(node.value) : null;
      if (unseen) {
        const shown = `U+${unseen[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
        const [from, to] = node.range ?? [0, 1];
        problems.push({
          code: 'not-text',
          severity: 'error',
          what: `there is a character in this text that cannot be seen (${shown})`,
          why: 'A terminal or a page would act on it instead of showing it.',
          cure: 'Write the text again without it.',
          place: places.at(from, to - from),
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
