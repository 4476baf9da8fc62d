import { Document, isCollection, type Node, visit } from 'yaml';

/** Answers are kept as people write them: `yes` and `no`, whatever the program calls them. */
export const asWritten = (value: unknown): unknown => {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.map(asWritten);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([name, inner]) => [name, asWritten(inner)]),
  );
};

const LAYOUT = { lineWidth: 0, flowCollectionPadding: true } as const;

/** A value on one line, safe inside braces and brackets. */
export const onOneLine = (value: unknown): string => {
  const doc = new Document([value], { version: '1.2', schema: 'core' });
  visit(doc, {
    Collection: (_, node) => {
      node.flow = true;
    },
  });
  return doc
    .toString({ ...LAYOUT, collectionStyle: 'flow' })
    .trim()
    .replace(/^\[\s*/, '')
    .replace(/\s*\]$/, '');
};

const flat = (value: unknown): boolean =>
  typeof value !== 'object' ||
  value === null ||
  Object.values(value).every((inner) => typeof inner !== 'object');

/** A value over as many lines as it needs; a small group inside a list stays on one line. */
export const onLines = (value: unknown): string => {
  const doc = new Document(value, { version: '1.2', schema: 'core' });
  visit(doc, {
    Seq: (_, list) => {
      for (const item of list.items) {
        const node = item as Node;
        if (isCollection(node) && flat(node.toJSON())) node.flow = true;
      }
    },
  });
  return doc.toString(LAYOUT).trimEnd();
};
