/** Stands in for `src/numeric/remembered.ts` while changes are tried: what is remembered can be forgotten. */

const forgetting: (() => void)[] = [];

export const forgetAll = (): void => {
  for (const forget of forgetting) forget();
};

export function remembered<Question, Answer>(
  answer: (question: Question) => Answer,
): (question: Question) => Answer {
  const kept = new Map<string, Answer>();
  forgetting.push(() => kept.clear());
  return (question) => {
    const key = JSON.stringify(question);
    if (!kept.has(key)) kept.set(key, answer(question));
    return kept.get(key)!;
  };
}

export function rememberedFor<Of extends object, Value>(answer: (of: Of) => Value): (of: Of) => Value {
  let kept = new WeakMap<Of, { readonly value: Value }>();
  forgetting.push(() => {
    kept = new WeakMap();
  });
  return (of) => {
    const known = kept.get(of) ?? { value: answer(of) };
    kept.set(of, known);
    return known.value;
  };
}
