/** More than any gauge shows, and far fewer than the sixteen of which engines disagree about the last. */
const FIGURES = 9;

/**
 * The same plain value with every number that is not whole in nine figures. Sine, logarithm and power come out one unit in the last place apart in one engine
 * and another, and a fit carries that on: a document is the same byte for byte wherever it was made.
 * Whole numbers (counts, bytes, lines) stay as they are.
 */
export function inNineFigures<T>(value: T): T {
  if (typeof value === "number") return (Number.isInteger(value) ? value : Number(value.toPrecision(FIGURES))) as T;
  if (Array.isArray(value)) return value.map(inNineFigures) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, inNineFigures(inner)])) as T;
}
