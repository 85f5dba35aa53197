import type { ImportProgress } from "../../../analysis/import/import-log";

/** Share of the bytes read, 0 to 1; null where the total is not known. */
export const shareRead = (progress: ImportProgress): number | null =>
  progress.totalBytes > 0 ? Math.min(1, progress.bytes / progress.totalBytes) : null;

/**
 * Seconds left at the rate so far; null while too little was read to say (under half a second or one part in a hundred).
 * @param elapsed seconds since reading began
 */
export function timeLeft(progress: ImportProgress, elapsed: number): number | null {
  const share = shareRead(progress);
  if (share === null || share < 0.01 || elapsed < 0.5) return null;
  return (elapsed * (1 - share)) / share;
}
