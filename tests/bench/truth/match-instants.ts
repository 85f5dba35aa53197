/** How many of the instants found belong to true ones, each to one. */
export type Matches = { readonly matched: number; readonly found: number; readonly true: number };

/** Pairs two rising lists of instants, s, that lie within some seconds of each other: each once, the earliest that fits. O(n + m) */
export function matchInstants(found: readonly number[], truth: readonly number[], within: number): Matches {
  let matched = 0;
  for (let i = 0, j = 0; i < found.length && j < truth.length; ) {
    if (Math.abs(found[i] - truth[j]) <= within) {
      matched++;
      i++;
      j++;
    } else if (found[i] < truth[j]) i++;
    else j++;
  }
  return { matched, found: found.length, true: truth.length };
}
