/**
 * A function of one object (a column, a channel) that works out each answer once and keeps it as long as the object lives. For pure functions of arrays
 * that nobody changes afterwards.
 */
export function remembered<K extends object, V>(workOut: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, { readonly answer: V }>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before.answer;
    const answer = workOut(key);
    known.set(key, { answer });
    return answer;
  };
}

/** The same for a function of two objects. */
export function rememberedForTwo<A extends object, B extends object, V>(workOut: (a: A, b: B) => V): (a: A, b: B) => V {
  const byFirst = remembered((a: A) => remembered((b: B) => workOut(a, b)));
  return (a, b) => byFirst(a)(b);
}
