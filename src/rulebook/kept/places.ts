import type { Place } from '../../problems/problem.ts';
import { once } from '../../quantities/once.ts';
import type { TextFile } from '../knowledge.ts';

/** A place without what its file tells anyway: index of the file, line, column, length. */
export type KeptPlace = readonly [file: number, line: number, column: number, length: number];

/** Turns places of the files given into kept ones. Throws where a place lies in none of them. */
export const placeKeeper = (files: readonly TextFile[]): ((place: Place) => KeptPlace) => {
  const index = new Map(files.map(({ file }, number) => [file, number]));
  return ({ file, line, column, length }) => {
    const number = index.get(file);
    if (number === undefined) throw new Error(`${file} is not among the files kept`);
    return [number, line, column, length];
  };
};

/** Turns kept places back; names and lines come from the files as they are given now, lines when somebody quotes one. */
export const placeFinder = (files: readonly TextFile[]): ((kept: KeptPlace) => Place) => {
  const lines = files.map(({ file }, number) => {
    const split = once(() => (files[number]?.text ?? '').replace(/^\uFEFF/, '').split('\n'));
    return { file, at: (line: number) => (split()[line - 1] ?? '').replace(/\r$/, '') };
  });
  return ([number, line, column, length]) => ({
    file: lines[number]?.file ?? '',
    line,
    column,
    length,
    get text() {
      return lines[number]?.at(line) ?? '';
    },
  });
};
