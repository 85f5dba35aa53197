/** A reading's progress at an instant, s. */
export type Stand = { readonly at: number; readonly bytes: number };

/** Before this much time has passed, the pace is not known well enough to promise anything. */
const LISTEN_FIRST = 0.7;

/** Seconds left at the pace since the start; null while the pace is not known. */
export function secondsLeft(start: Stand, now: Stand, totalBytes: number): number | null {
  const elapsed = now.at - start.at;
  const read = now.bytes - start.bytes;
  if (elapsed < LISTEN_FIRST || read <= 0) return null;
  return Math.max(0, ((totalBytes - now.bytes) * elapsed) / read);
}
