import type { z } from 'zod';
import type { Path } from '../source/source.ts';
import type { QuiltCase } from './model.ts';

/** What a case cannot do without, and what stands in for it while the rest is looked through. Nothing checks these. */
const STAND_INS: readonly (readonly [path: Path, value: unknown])[] = [
  [['mendwise'], 1],
  [['case'], 'unnamed'],
  [['quilt'], {}],
  [['quilt', 'size'], { width: '400 in', height: '400 in' }],
  [['survey'], {}],
  [['survey', 'seen'], 'in hand'],
];

type Container = Record<string | number, unknown>;
const isContainer = (value: unknown): value is Container => typeof value === 'object' && value !== null;

const at = (root: unknown, path: Path): unknown => {
  let here = root;
  for (const segment of path) here = isContainer(here) ? here[segment] : undefined;
  return here;
};

/** Takes out what stands at a path: a line of a group, or the whole list it is an entry of, so that no entry moves up. */
const takeOut = (root: unknown, path: Path): void => {
  const name = path.at(-1);
  const parent = at(root, path.slice(0, -1));
  if (name === undefined || !isContainer(parent)) return;
  if (Array.isArray(parent)) takeOut(root, path.slice(0, -1));
  // A required line that is missing takes its group with it.
  else if (!Object.hasOwn(parent, name)) takeOut(root, path.slice(0, -1));
  else delete parent[name];
};

/**
 * As much of a faulty case as can be understood, so that one run can report what else is wrong. For the checks
 * only, never for use; undefined where too little is left.
 */
export const salvage = (schema: z.ZodType<QuiltCase>, value: unknown): QuiltCase | undefined => {
  const rest: unknown = structuredClone(value);
  for (let round = 0; round < 12; round += 1) {
    for (const [path, standIn] of STAND_INS) {
      const parent = at(rest, path.slice(0, -1));
      const name = path.at(-1);
      if (isContainer(parent) && name !== undefined && !Object.hasOwn(parent, name)) parent[name] = standIn;
    }
    const result = schema.safeParse(rest);
    if (result.success) return result.data;
    for (const issue of result.error.issues) {
      const path = issue.path.map((part) => (typeof part === 'number' ? part : String(part)));
      if (issue.code === 'unrecognized_keys') for (const key of issue.keys) takeOut(rest, [...path, key]);
      else takeOut(rest, path);
    }
  }
  return undefined;
};
