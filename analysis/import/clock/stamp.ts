/** Order of day, month and year where all three are written as numbers. */
export type DateOrder = "dmy" | "mdy" | "ymd" | "ydm";

/** What a cell says of the time: each part NaN where the cell does not say it. */
export type Stamp = {
  /** Days since 1970-01-01. */
  readonly days: number;
  /** Seconds of the day. */
  readonly seconds: number;
  /** Seconds east of UTC. */
  readonly offset: number;
};

/** Seconds since 1970 as if the stamp were UTC, the offset left alone; NaN without a date. A date alone is its midnight. */
export const stampSeconds = (stamp: Stamp): number => stamp.days * 86400 + (Number.isNaN(stamp.seconds) ? 0 : stamp.seconds);
