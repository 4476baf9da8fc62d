import type { AnswerEstimates } from '../decision/answer-model.ts';
import { whole } from '../quantities/rounding.ts';

type Holes = AnswerEstimates['holes'];

/** To two figures, as people picture numbers; exact counts stand in the data and on the work order. */
const about = (count: number): string => {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, count))) - 1);
  return whole(Math.round(count / step) * step);
};

/** Nearly all, most or some of a number; the share that is hidden in seams is told in words. */
function hidden({ new_old_face: face, new_old_allowance: seams }: Holes): string {
  const share = seams / (face + seams);
  if (share === 1) return ', all hidden in seams';
  if (share >= 0.9) return ', nearly all hidden in seams';
  if (share >= 0.5) return ', most of them hidden in seams';
  return share > 0.1 ? ', some of them hidden in seams' : '';
}

const PER = 100;

/** Beside the stitches a maker would have put in; nothing where that scale shows nothing. */
function beside(top: number, plain: number): string {
  const each = (PER * top) / plain;
  const added =
    each < 1 ? 'this adds less than one for every hundred' : `this adds ${about(each)} for every hundred`;
  return `A plain hand-quilted quilt of this size has about ${about(plain)} in its top; ${added}.`;
}

/** New holes in old cloth so that a client can picture them: in the top and in the backing, never both in one sum. */
export function holesTold(holes: Holes): readonly string[] {
  const { new_old_face: face, new_old_allowance: seams, new_old_backing: back, reused, most } = holes;
  const top = face + seams;
  return [
    top + back === 0 ? 'None.' : '',
    top === 0 ? '' : `About ${about(top)} in the top${hidden(holes)}.`,
    back === 0 ? '' : `About ${about(back)} in the old backing.`,
    top === 0 || most === null
      ? ''
      : `More of those in the top fall in ${most.where} than anywhere else: about ${about(most.count)}.`,
    reused === 0
      ? ''
      : `About ${about(reused)} old ${Math.round(reused) === 1 ? 'hole is' : 'holes are'} used again.`,
    top === 0 ? '' : beside(top, holes.plain_quilt),
  ].filter((sentence) => sentence !== '');
}
