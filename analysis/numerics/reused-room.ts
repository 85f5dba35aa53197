/** Rooms no longer than this are kept; longer ones would hold too much memory for good. */
const KEPT_MOST = 1 << 20;

/**
 * Room for figures that their maker is done with before it asks again: the same array each time, since fresh memory costs more than most of what is done in
 * it. Not cleared. @param keptMost figures that a room is kept for   @returns by length, an array at least so long
 */
export function reusedRoom(keptMost = KEPT_MOST): (length: number) => Float64Array {
  let kept = new Float64Array(0);
  return (length) => {
    if (length > keptMost) return new Float64Array(length);
    if (kept.length < length) kept = new Float64Array(length);
    return kept;
  };
}
