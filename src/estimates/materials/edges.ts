/** Cutting a binding, lengths in inches. */
export interface BindingCut {
  /** Once round, and the allowance for joins and corners. */
  readonly length: number;
  /** Strips before rounding up, as handbooks print it. */
  readonly exactStrips: number;
  readonly strips: number;
  /** Off the bolt. */
  readonly cloth: number;
}

/** `allowance` for joins and corners (published: 0 to 24 in), `usable` across the bolt, `strip` the cut width. */
export const bindingCut = (
  width: number,
  height: number,
  {
    allowance,
    usable,
    strip,
  }: { readonly allowance: number; readonly usable: number; readonly strip: number },
): BindingCut => {
  const length = 2 * (width + height) + allowance;
  const exactStrips = length / usable;
  const strips = Math.ceil(exactStrips - 1e-9);
  return { length, exactStrips, strips, cloth: strips * strip };
};

/** A hanging sleeve for a quilt `width` in wide: its length, and strips of cloth `usable` in across to make it. */
export const sleeveCut = (
  width: number,
  { shorter, usable, strip }: { readonly shorter: number; readonly usable: number; readonly strip: number },
): { readonly length: number; readonly strips: number; readonly cloth: number } => {
  const length = Math.max(0, width - shorter);
  const strips = Math.ceil(length / usable - 1e-9);
  return { length, strips, cloth: strips * strip };
};
