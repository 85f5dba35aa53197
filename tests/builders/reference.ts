import nist from "../analysis/numerics/reference/nist-strd.json";
import golden from "../analysis/numerics/reference/scipy-golden.json";

type Golden = { readonly id: string; readonly rtol: number; readonly atol: number; readonly output: unknown };

/** One case computed with NumPy and SciPy: its output (shape as the file has it) and a check within its tolerance. */
export function goldenCase<Output>(id: string): { readonly output: Output; within(got: number, want: number): boolean } {
  const found = (golden.cases as readonly Golden[]).find((c) => c.id === id);
  if (found === undefined) throw new RangeError(`no golden case ${id}`);
  return { output: found.output as Output, within: (got, want) => Math.abs(got - want) <= found.atol + found.rtol * Math.abs(want) };
}

export const goldenInputs = golden.inputs;

export type UnivariateSet = { readonly name: string; readonly certified: { mean: number; sd: number; lag1: number }; readonly y: number[] };

/** Certified univariate sets of the National Institute of Standards and Technology. */
export const univariateSets: readonly UnivariateSet[] = nist.univariate.map((set) => ({
  name: set.name,
  certified: set.certified,
  y: valuesOf(set as { y?: number[]; digits?: string; pattern?: number[] }),
}));

function valuesOf(set: { y?: number[]; digits?: string; pattern?: number[] }): number[] {
  if (set.y !== undefined) return set.y;
  if (set.digits !== undefined) return [...set.digits].map(Number);
  const [first, low, high] = set.pattern as [number, number, number];
  return [first, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high))];
}

export type RegressionSet = {
  readonly name: string;
  readonly x: number[] | number[][];
  readonly y: number[];
  readonly certified: { b: number[]; sd: number[] };
};
/** Certified linear regression sets of the National Institute of Standards and Technology. */
export const regressionSets = nist.regression as readonly RegressionSet[];

/** Correct digits: -log10 of the relative error, 15 at most. */
export const digits = (got: number, want: number): number =>
  got === want ? 15 : Math.min(15, -Math.log10(want === 0 ? Math.abs(got) : Math.abs((got - want) / want)));
