type Stretch = { readonly from: number; readonly to: number };

/** Shared length over joint length, 0 to 1. */
export function overlap(a: Stretch, b: Stretch): number {
  const shared = Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));
  return shared / (a.to - a.from + b.to - b.from - shared);
}

/** Share of a list for which a statement holds; NaN for an empty one. */
export const shareOf = <T>(list: readonly T[], holds: (item: T) => boolean): number => list.filter(holds).length / list.length;

export const rootMeanSquare = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
