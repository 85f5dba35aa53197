/** The last part of a fall, which one draw made; what came before may have been another. */
const LAST = 0.4;
const STANDS_OUT = 6; // spreads of the noise

/** The last part of a fall: s, the rise of 1/p(abs), 1/Pa, and how many samples it took. */
export type LastFall = { readonly time: number; readonly rise: number; readonly samples: number };

/**
 * The last part of the fall of the pressure that ends at a sample. While the tank alone feeds a draw, q = K d(1/p)/dt (Boyle).
 * @param times s, @param pressure Pa gauge, shapes [n]     @param first,end the fall lies between these samples     @param noise spread, Pa     @param air Pa
 * @returns null where noise hides it
 */
export function lastFall(
  times: Float64Array,
  pressure: ArrayLike<number>,
  { first, end }: { readonly first: number; readonly end: number },
  noise: number,
  air: number,
): LastFall | null {
  let highest = pressure[end];
  for (let i = first; i < end; i++) if (pressure[i] > highest) highest = pressure[i];
  const part = LAST * (highest - pressure[end]);
  if (!(part > STANDS_OUT * noise)) return null;
  let at = end;
  while (at > first && !(pressure[at] >= pressure[end] + part)) at--;
  if (at === end) return null;
  return { time: times[end] - times[at], rise: 1 / (pressure[end] + air) - 1 / (pressure[at] + air), samples: end - at };
}
