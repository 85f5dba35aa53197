/**
 * Solves A x = b for a small symmetric positive matrix by Cholesky. Null where A is not positive.
 * @param a p rows of p, read only   @param b shape [p]
 */
export function choleskySolve(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const p = b.length;
  const l: number[][] = a.map((row) => row.slice());
  const floor = 1e-14 * Math.max(...a.map((row, i) => row[i]));
  for (let j = 0; j < p; j++) {
    for (let k = 0; k < j; k++) for (let i = j; i < p; i++) l[i][j] -= l[i][k] * l[j][k];
    if (!(l[j][j] > floor)) return null;
    const root = Math.sqrt(l[j][j]);
    for (let i = j; i < p; i++) l[i][j] /= root;
  }
  const x = b.slice();
  for (let i = 0; i < p; i++) {
    for (let k = 0; k < i; k++) x[i] -= l[i][k] * x[k];
    x[i] /= l[i][i];
  }
  for (let i = p - 1; i >= 0; i--) {
    for (let k = i + 1; k < p; k++) x[i] -= l[k][i] * x[k];
    x[i] /= l[i][i];
  }
  return x;
}
