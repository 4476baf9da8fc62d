import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

const guide = readFileSync('DEVELOPERS.md', 'utf8');

/** The rooms in the order of the contributor's guide: a room may use those above it. */
const ROOMS = [...guide.matchAll(/^\| `(\w+)\/` \|/gm)].map(([, room]) => room ?? '');

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((path) =>
  /\.tsx?$/.test(path),
);

type Imports = ReadonlyMap<string, readonly string[]>;

/** Everything a file imports of the house: values and types, at its head or while it runs. */
const importsIn = (path: string, text: string): string[] =>
  [...text.matchAll(/(?:\bfrom |\bimport\(|^import )'(\.[^']+)'/gm)].map(([, target = '']) =>
    normalize(join(dirname(path), target)),
  );
const house: Imports = new Map(
  files.map((path) => [path, importsIn(path, readFileSync(join('src', path), 'utf8'))]),
);

const roomOf = (path: string): number => ROOMS.indexOf(path.split('/')[0] ?? '');

const upwardIn = (imports: Imports): string[] =>
  [...imports].flatMap(([path, targets]) =>
    targets
      .filter((target) => roomOf(path) >= 0 && roomOf(target) > roomOf(path))
      .map((target) => `${path} imports ${target}`),
  );

/** The first circle of imports that is found, as a chain of files. */
function circleIn(imports: Imports): readonly string[] | undefined {
  const done = new Set<string>();
  const walk = (path: string, chain: readonly string[]): readonly string[] | undefined => {
    if (chain.includes(path)) return [...chain.slice(chain.indexOf(path)), path];
    if (done.has(path)) return undefined;
    for (const target of imports.get(path) ?? []) {
      const circle = walk(target, [...chain, path]);
      if (circle !== undefined) return circle;
    }
    done.add(path);
    return undefined;
  };
  for (const path of imports.keys()) {
    const circle = walk(path, []);
    if (circle !== undefined) return circle;
  }
  return undefined;
}

/** Rooms and their folders: a folder of one file is a wall too many. */
const foldersIn = (paths: readonly string[]): ReadonlyMap<string, number> => {
  const folders = new Map<string, number>();
  for (const path of paths) folders.set(dirname(path), (folders.get(dirname(path)) ?? 0) + 1);
  return folders;
};

describe('the house', () => {
  it('has the rooms the guide names, and no others', () => {
    const found = readdirSync('src', { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => name);
    expect(found.toSorted()).toEqual(ROOMS.toSorted());
  });

  it('imports from rooms above in the guide, never from below', () => {
    expect(upwardIn(house)).toEqual([]);
  });

  it('imports nothing in a circle, types included', () => {
    expect(circleIn(house)).toBeUndefined();
  });

  it('imports files that are there', () => {
    const missing = [...house].flatMap(([path, targets]) =>
      targets.filter((target) => !house.has(target)).map((target) => `${path} imports ${target}`),
    );
    expect(missing).toEqual([]);
  });

  it('has no folder of a single file', () => {
    const lonely = [...foldersIn(files)].filter(([folder, count]) => folder !== '.' && count < 2);
    expect(lonely).toEqual([]);
  });

  it('keeps its files short, and not too many', () => {
    const long = files.filter((path) => readFileSync(join('src', path), 'utf8').split('\n').length > 301);
    expect(long).toEqual([]);
    expect(files.length).toBeLessThanOrEqual(330);
  });

  it('would be found broken: an import from below while it runs, a circle among types', () => {
    const loading = importsIn('findings/a.ts', "const late = await import('../cli/command.ts');");
    expect(upwardIn(new Map([['findings/a.ts', loading]]))).toEqual(['findings/a.ts imports cli/command.ts']);
    const [one, other] = [
      importsIn('plans/a.ts', "import type { B } from './b.ts';"),
      importsIn('plans/b.ts', "import type { A } from './a.ts';"),
    ];
    expect(
      circleIn(
        new Map([
          ['plans/a.ts', one],
          ['plans/b.ts', other],
        ]),
      ),
    ).toEqual(['plans/a.ts', 'plans/b.ts', 'plans/a.ts']);
  });
});
