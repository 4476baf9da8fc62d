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
