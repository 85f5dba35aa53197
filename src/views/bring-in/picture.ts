/** A small picture of a column: one SVG path in a box, a missing value breaks the line. Null where there is nothing to draw. */
export function picturePath(values: readonly (number | null)[], width: number, height: number): string | null {
  const known = values.filter((value): value is number => value !== null && Number.isFinite(value));
  if (known.length < 2) return null;
  const [low, high] = known.reduce(([least, most], value) => [Math.min(least, value), Math.max(most, value)], [known[0], known[0]]);
  const x = (i: number) => (i / (values.length - 1)) * width;
  const y = (value: number) => (high === low ? height / 2 : height - ((value - low) / (high - low)) * height);
  const steps = values.map((value, i) => {
    if (value === null || !Number.isFinite(value)) return "";
    const before = i === 0 ? null : values[i - 1];
    return `${before === null || !Number.isFinite(before) ? "M" : "L"}${x(i).toFixed(1)} ${y(value).toFixed(1)}`;
  });
  return steps.join("");
}
