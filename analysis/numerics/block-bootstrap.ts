import type { Random } from "./random";

/**
 * Draws `n` block indexes by the circular moving-block bootstrap: runs of `length` neighbours keep the dependence of an hour on the one
 * before it, and whole days where `length` is a day. Politis & Romano 1992 (from memory).
 * @returns shape [n]
 */
export function drawBlocks(n: number, length: number, random: Random): Uint32Array {
  const drawn = new Uint32Array(n);
  for (let i = 0; i < n; i += length) {
    const start = random.below(n);
    for (let j = 0; j < length && i + j < n; j++) drawn[i + j] = (start + j) % n;
  }
  return drawn;
}

/** Length of a run of neighbours: a day where the record holds at least four, else about the cube root of the count (Künsch 1989). */
export function runLength(blocks: number, blockS: number): number {
  const perDay = Math.max(1, Math.round(86400 / blockS));
  return blocks >= 4 * perDay ? perDay : Math.max(1, Math.round(Math.cbrt(blocks)));
}
