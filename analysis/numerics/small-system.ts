/**
 * Solves A x = b for a small symmetric positive matrix by Cholesky. Null where A is not positive.
 * @param a p rows of p, read only   @param b shape [p]
 */
export function choleskySolve(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const p = b.length;
  const l = new Float64Array(p * p); // row after row
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < p; i++) {
    for (let j = 0; j < p; j++) l[i * p + j] = a[i][j];
    largest = Math.max(largest, a[i][i]);
  }
  for (let j = 0; j < p; j++) {
    for (let k = 0; k < j; k++) for (let i = j; i < p; i++) l[i * p + j] -= l[i * p + k] * l[j * p + k];
    if (!(l[j * p + j] > 1e-14 * largest)) return null;
    const root = Math.sqrt(l[j * p + j]);
    for (let i = j; i < p; i++) l[i * p + j] /= root;
  }
  const x = b.slice();
  for (let i = 0; i < p; i++) {
    for (let k = 0; k < i; k++) x[i] -= l[i * p + k] * x[k];
    x[i] /= l[i * p + i];
  }
  for (let i = p - 1; i >= 0; i--) {
    for (let k = i + 1; k < p; k++) x[i] -= l[k * p + i] * x[k];
    x[i] /= l[i * p + i];
  }
  return x;
}
