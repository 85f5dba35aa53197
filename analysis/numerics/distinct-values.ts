import type { Numbers } from "./order-statistics";

/**
 * The different values of a column in rising order, missing ones left out; null where there are more than `most`. A table of hashed places beside a
 * plain array: a Set of numbers takes some eight times as long. O(n).
 */
export function distinctValues(values: Numbers, most: number): Float64Array | null {
  const table = new Float64Array(roomFor(most)).fill(Number.NaN);
  const room = table.length;
  const found = new Float64Array(most);
  let count = 0;
  let before = Number.NaN;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value === before || value - value !== 0) continue;
    before = value;
    let at = placeOf(value) & (room - 1);
    while (!Number.isNaN(table[at]) && table[at] !== value) at = (at + 1) & (room - 1);
    if (table[at] === value) continue;
    if (count === most) return null;
    table[at] = value;
    found[count++] = value;
  }
  return found.slice(0, count).sort();
}

/** A counter of the different values (missing ones count as one) of parts of at most `most` values, from inclusive and to exclusive; its table serves all parts. */
export function differentIn(most: number): (values: Numbers, from: number, to: number) => number {
  const table = new Float64Array(roomFor(most));
  return (values, from, to) => {
    table.fill(Number.NaN);
    let count = 0;
    let missing = 0;
    for (let i = from; i < to; i++) {
      const value = values[i];
      if (Number.isNaN(value)) {
        missing = 1;
        continue;
      }
      let at = placeOf(value) & (table.length - 1);
      while (!Number.isNaN(table[at]) && table[at] !== value) at = (at + 1) & (table.length - 1);
      if (table[at] === value) continue;
      table[at] = value;
      count++;
    }
    return count + missing;
  };
}

/** Places for so many values, a power of two so that few meet. */
function roomFor(most: number): number {
  let room = 16;
  while (room < 4 * most) room *= 2;
  return room;
}

const double = new Float64Array(1);
const words = new Int32Array(double.buffer);

/** Multiplicative hash of both halves of a double; 0 and -0 are one value. */
function placeOf(value: number): number {
  double[0] = value + 0;
  const mixed = Math.imul(words[0] ^ Math.imul(words[1], 0x85ebca6b), 0x9e3779b1);
  return mixed ^ (mixed >>> 15);
}
