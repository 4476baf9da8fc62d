import { isMap, isScalar, isSeq, type Node, type YAMLMap, type YAMLSeq } from 'yaml';
import { keyText, type Path } from '../source/source.ts';
import { onLines, onOneLine } from './written-value.ts';

/** One piece of text put in place of another, so that every other byte of the file stays as it was. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

const childOf = (node: unknown, segment: string | number): unknown => {
  if (isMap(node))
    return node.items.find((pair) => keyText(pair.key) === String(segment))?.value ?? undefined;
  return isSeq(node) ? node.items[Number(segment)] : undefined;
};

const columnOf = (text: string, offset: number): number => offset - (text.lastIndexOf('\n', offset - 1) + 1);

/** The end of the line on which the last thing inside a block stands. */
const endOfBlock = (text: string, node: YAMLMap | YAMLSeq): number | undefined => {
  if (!node.range) return undefined;
  const inside = text.slice(0, node.range[1]).trimEnd().length;
  const end = text.indexOf('\n', inside);
  return end === -1 ? text.length : end;
};

const indented = (lines: string, column: number): string =>
  lines
    .split('\n')
    .map((line) => (line === '' ? line : ' '.repeat(column) + line))
    .join('\n');

/** New text in place of a value that is already there. */
const replaced = (text: string, node: Node, value: unknown): Splice | undefined => {
  if (!node.range) return undefined;
  const [from, to] = node.range;
  if (isScalar(node) && node.type === 'BLOCK_LITERAL' && typeof value === 'string') {
    const bodyAt = text.indexOf('\n', from) + 1;
    const column = /^( *)\S/m.exec(text.slice(bodyAt, to))?.[1]?.length;
    if (bodyAt === 0 || column === undefined) return undefined;
    return { from: bodyAt, to, text: `${indented(value.trimEnd(), column)}\n` };
  }
  const block = (isMap(node) || isSeq(node)) && !node.flow;
  if (block || (isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED')))
    return undefined;
  return { from, to, text: onOneLine(value) };
};

/** A new line in a group, or a new entry at the end of a list. */
const added = (text: string, parent: Node, name: string | number, value: unknown): Splice | undefined => {
  if (!parent.range || !(isMap(parent) || isSeq(parent))) return undefined;
  const entry = isMap(parent) ? { [String(name)]: value } : value;
  if (parent.flow) {
    const closing = parent.range[1] - 1;
    const before = text.slice(0, closing).trimEnd();
    const line = onOneLine(entry);
    const bare = isMap(parent) ? line.replace(/^\{\s*/, '').replace(/\s*\}$/, '') : line;
    const comma = parent.items.length === 0 ? ' ' : /,$/.test(before) ? ' ' : ', ';
    return { from: before.length, to: closing, text: `${comma}${bare} ` };
  }
  const first = parent.items[0];
  const start = isMap(parent) ? (first as { key: Node } | undefined)?.key.range?.[0] : parent.range[0];
  const end = endOfBlock(text, parent);
  if (start === undefined || end === undefined) return undefined;
  const lines = onLines(isMap(parent) ? entry : [entry]);
  return { from: end, to: end, text: `\n${indented(lines, columnOf(text, start))}` };
};

/** How to set a value at a path by changing as little text as possible; undefined where that cannot be done. */
export const spliceFor = (text: string, root: Node, path: Path, value: unknown): Splice | undefined => {
  let node: Node = root;
  for (const [depth, segment] of path.entries()) {
    const next = childOf(node, segment);
    if (next === undefined || next === null) {
      const rest = path.slice(depth + 1);
      const nested = rest.reduceRight<unknown>((inner, name) => ({ [String(name)]: inner }), value);
      return added(text, node, segment, nested);
    }
    node = next as Node;
  }
  return replaced(text, node, value);
};
