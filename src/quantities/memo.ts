/**
 * Keeps the last answers of a function of one record. Two records are alike where each field is the same object or value:
 * the whole argument is compared, so nothing that the answer rests on can be forgotten. For pure functions alone.
 */
export function memo<Given extends object, Answer>(
  most: number,
  work: (given: Given) => Answer,
): (given: Given) => Answer {
  let latestFirst: { readonly given: Given; readonly answer: Answer }[] = [];
  return (given) => {
    const known = latestFirst.find((each) => areAlike(each.given, given)) ?? { given, answer: work(given) };
    if (known !== latestFirst[0])
      latestFirst = [known, ...latestFirst.filter((each) => each !== known)].slice(0, most);
    return known.answer;
  };
}

function areAlike<Given extends object>(one: Given, other: Given): boolean {
  for (const field in one) if (!Object.is(one[field], other[field])) return false;
  for (const field in other) if (!(field in one)) return false;
  return true;
}

/** Works a value out when it is first asked for, and keeps it. */
export function memoize<T>(work: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: work() };
    return kept.value;
  };
}

/** Works a value out once for each object it is worked out from, and keeps it for as long as the object lives. */
export function memoizeByObject<K extends object, T>(work: (from: K) => T): (from: K) => T {
  const kept = new WeakMap<K, { readonly value: T }>();
  return (from) => {
    const known = kept.get(from) ?? { value: work(from) };
    kept.set(from, known);
    return known.value;
  };
}

/** As `memoizeByObject`, for what is worked out from two objects. */
export function memoizeByPair<A extends object, B extends object, T>(
  work: (one: A, other: B) => T,
): (one: A, other: B) => T {
  const of = memoizeByObject((one: A) => memoizeByObject((other: B) => work(one, other)));
  return (one, other) => of(one)(other);
}

/**
 * What a store holds under a key, worked out and put there where it holds nothing. A store that already holds `most` is
 * emptied first. For values that are never undefined.
 */
export function memoizeByKey<K, T>(
  store: Map<K, T>,
  key: K,
  work: () => T,
  most = Number.POSITIVE_INFINITY,
): T {
  const known = store.get(key);
  if (known !== undefined) return known;
  const made = work();
  if (store.size >= most) store.clear();
  store.set(key, made);
  return made;
}
