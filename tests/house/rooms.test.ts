import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

const guide = readFileSync('DEVELOPERS.md', 'utf8');

/** The rooms in the order of the contributor's guide: a room may use those above it. */
const rooms = [...guide.matchAll(/^\| `(\w+)\/` \|/gm)].map(([, room]) => room);

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((path) =>
  /\.tsx?$/.test(path),
);

const roomOf = (path: string): number => rooms.indexOf(path.split('/')[0] ?? '');

describe('the house', () => {
  it('has the rooms the guide names, and no others', () => {
    const found = readdirSync('src', { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && entry.name !== 'build')
      .map(({ name }) => name);
    expect(found.toSorted()).toEqual(rooms.toSorted());
  });

  it('imports from rooms above in the guide, never from below', () => {
    const upwards = files
      .filter((path) => roomOf(path) >= 0)
      .flatMap((path) =>
        [...readFileSync(join('src', path), 'utf8').matchAll(/from '(\.[^']+)'/g)]
          .map(([, target]) => normalize(join(dirname(path), target ?? '')))
          .filter((target) => roomOf(target) > roomOf(path))
          .map((target) => `${path} imports ${target}`),
      );
    expect(upwards).toEqual([]);
  });

  it('keeps its files short', () => {
    const long = files.filter((path) => readFileSync(join('src', path), 'utf8').split('\n').length > 301);
    expect(long).toEqual([]);
  });
});
