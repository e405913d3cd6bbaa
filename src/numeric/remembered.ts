/**
 * A pure function that remembers what it last answered, so that the same question asked again costs nothing: still pure,
 * since an answer depends on its question alone.
 *
 * @param answer a pure function of numbers, words and records of these, whose answers nobody changes
 * @param most how many answers are kept, at least 1; the one longest unasked goes first
 * Questions are told apart by their JSON text. Check: `tests/numeric/remembered.test.ts`.
 */
export function remembered<Question, Answer>(
  answer: (question: Question) => Answer,
  most: number,
): (question: Question) => Answer {
  const kept = new Map<string, Answer>();
  return (question) => {
    const key = JSON.stringify(question);
    const given = kept.has(key) ? kept.get(key)! : answer(question);
    kept.delete(key);
    kept.set(key, given);
    if (kept.size > most) kept.delete(kept.keys().next().value!);
    return given;
  };
}

/**
 * A pure function of an object nobody changes, worked out once for each and kept as long as the object is: an index of
 * a list, say. Check: `tests/numeric/remembered.test.ts`.
 */
export function rememberedFor<Of extends object, Value>(answer: (of: Of) => Value): (of: Of) => Value {
  const kept = new WeakMap<Of, { readonly value: Value }>();
  return (of) => {
    const known = kept.get(of) ?? { value: answer(of) };
    kept.set(of, known);
    return known.value;
  };
}
