/** Works a value out when it is first asked for, and keeps it. */
export function once<T>(work: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: work() };
    return kept.value;
  };
}
