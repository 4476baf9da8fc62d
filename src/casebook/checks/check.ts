import type { Problem } from '../../problems/problem.ts';
import { valueAt } from '../../source/quote.ts';
import type { Path, Source } from '../../source/source.ts';
import type { LayoutSpec, Quilt, QuiltCase, Resurvey, Survey } from '../model.ts';

export interface CheckContext {
  readonly source: Source;
  readonly quiltCase: QuiltCase;
}

/** One way in which lines that are each right can contradict each other. */
export type Check = (context: CheckContext) => Problem[];

/** One look at the quilt, the first or a later one, with the layout it speaks of. */
export interface Look {
  readonly path: Path;
  readonly survey: Partial<Survey> | Resurvey;
  readonly layout: LayoutSpec | undefined;
}

/** The survey and every resurvey, in the order of the file. A layout corrected later holds from there on. */
export const looks = ({ quiltCase }: CheckContext): Look[] => {
  let layout = quiltCase.quilt.layout;
  const all: Look[] = [{ path: ['survey'], survey: quiltCase.survey, layout }];
  for (const [index, survey] of quiltCase.resurveys.entries()) {
    layout = survey.quilt?.layout ?? layout;
    all.push({ path: ['resurveys', index], survey, layout });
  }
  return all;
};

/** The quilt as first described, and what each later look says of it. */
export const quilts = ({
  quiltCase: { quilt, resurveys },
}: CheckContext): readonly { readonly path: Path; readonly quilt: Partial<Quilt> }[] => [
  { path: ['quilt'], quilt },
  ...resurveys.flatMap((resurvey, index) =>
    resurvey.quilt === undefined ? [] : [{ path: ['resurveys', index, 'quilt'], quilt: resurvey.quilt }],
  ),
];

/** What the file itself says at a path, before anything was made of it. */
export const written = (source: Source, path: Path): unknown => valueAt(source.value, path);
