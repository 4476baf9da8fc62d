/** A case as plain data in the file's own words, before it is written: groups within groups. */
export interface Draft {
  [name: string]: string | number | readonly string[] | Draft;
}

/** Sets a value at a path, making the groups on the way. */
export function put(draft: Draft, path: readonly string[], value: Draft[string]): void {
  const [name, ...rest] = path;
  if (name === undefined) return;
  if (rest.length === 0) {
    draft[name] = value;
    return;
  }
  const inner = draft[name];
  const group: Draft = typeof inner === 'object' && !Array.isArray(inner) ? (inner as Draft) : {};
  draft[name] = group;
  put(group, rest, value);
}

export const at = (draft: Draft, path: readonly string[]): Draft[string] | undefined =>
  path.reduce<Draft[string] | undefined>(
    (here, name) =>
      typeof here === 'object' && !Array.isArray(here) && Object.hasOwn(here, name)
        ? (here as Draft)[name]
        : undefined,
    draft,
  );

export const copyOf = (draft: Draft): Draft => structuredClone(draft);

/** The least a case file may hold. */
export const bareDraft = (name: string): Draft => ({
  mendwise: 1,
  case: name,
  quilt: { size: { width: '60 in', height: '60 in' } },
  survey: { seen: 'in hand' },
});

/** 0.15 as a file has it: `15 %`, with no dust of binary fractions. */
export const percent = (share: number): string => `${Math.round(share * 1e6) / 1e4} %`;
