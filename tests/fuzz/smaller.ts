/** How long a case is made smaller, ms. */
const PATIENCE = 20_000;

/**
 * A smaller input that still does the same: pieces are left out, halves first, then ever smaller ones (delta debugging, after
 * Zeller and Hildebrandt 2002, without its complements).
 */
export async function smaller(found: Uint8Array, doesTheSame: (bytes: Uint8Array) => Promise<boolean>): Promise<Uint8Array> {
  const until = Date.now() + PATIENCE;
  let best = found;
  for (let piece = best.length >> 1; piece >= 1 && Date.now() < until; piece >>= 1) {
    for (let at = 0; at < best.length && Date.now() < until; ) {
      const without = Uint8Array.from(Buffer.concat([best.subarray(0, at), best.subarray(at + piece)]));
      if (await doesTheSame(without)) best = without;
      else at += piece;
    }
  }
  return best;
}
