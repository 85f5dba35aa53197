/** A finding against the site's acceptance limit, in a word; null where there is no limit for it. */
export function sayOverLimit(overLimit: boolean | null): string | null {
  if (overLimit === null) return null;
  return overLimit ? "Over the limit" : "Within the limit";
}
