/** Where accepted rows go. */
export type RowSink = {
  readonly count: number;
  /** @param row values of the number columns, SI  @param cells the row as text */
  push(line: number, time: number, row: readonly number[], cells: readonly string[]): void;
};
