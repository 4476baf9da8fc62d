import type { z } from 'zod';
import type { Path } from './source.ts';

type Def = z.core.$ZodTypes['_zod']['def'];

const defOf = (schema: z.core.$ZodType): Def => schema._zod.def as Def;

/** The checks that stand for one value, whatever wraps it: optional, transformed, one of several. */
const inside = (schema: z.core.$ZodType): z.core.$ZodType[] => {
  const def = defOf(schema);
  if ('innerType' in def) return inside(def.innerType);
  if (def.type === 'pipe') return [...inside(def.in), ...inside(def.out)];
  if (def.type === 'lazy') return inside(def.getter());
  if (def.type === 'union') return def.options.flatMap(inside);
  return [schema];
};

const step = (schema: z.core.$ZodType, segment: string | number): z.core.$ZodType[] => {
  const def = defOf(schema);
  if (def.type === 'object') {
    const next = Object.hasOwn(def.shape, segment) ? def.shape[String(segment)] : undefined;
    return next === undefined ? [] : inside(next);
  }
  if (def.type === 'record') return inside(def.valueType);
  if (def.type === 'array') return inside(def.element);
  return [];
};

/** The names a zod check knows for the group at a path, in the order they were declared. */
export const knownKeysIn =
  (schema: z.core.$ZodType) =>
  (path: Path): readonly string[] => {
    const here = path.reduce(
      (nodes, segment) => nodes.flatMap((node) => step(node, segment)),
      inside(schema),
    );
    const keys = here.flatMap((node) => {
      const def = defOf(node);
      return def.type === 'object' ? Object.keys(def.shape) : [];
    });
    return [...new Set(keys)];
  };
