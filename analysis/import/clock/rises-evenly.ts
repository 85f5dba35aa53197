const DAY = 86400; // s

/**
 * Whether the instants rise by the same step all along, at most a day, so that no row is unread, late, equal to another, or beside a leap of the clock:
 * most logs are so, and need no further look at their clock. Leaves at the first row that is not. Times s, shape [n].
 */
export function risesEvenly(times: Float64Array): boolean {
  const count = times.length;
  if (count < 2) return false;
  const start = times[0];
  const step = (times[count - 1] - start) / (count - 1);
  if (!(step > 0 && step <= DAY)) return false;
  const tolerance = step * 1e-6 + Math.abs(start) * 1e-15;
  for (let i = 1; i < count; i++) if (!(Math.abs(times[i] - start - i * step) <= tolerance)) return false;
  return true;
}
