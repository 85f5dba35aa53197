/** What a column of a log stands for. "volume" is a totaliser, not a flow. */
export const CHANNEL_ROLES = [
  "time",
  "pressure",
  "flow",
  "speed",
  "current",
  "power",
  "running",
  "temperature",
  "level",
  "volume",
  "other",
] as const;
export type ChannelRole = (typeof CHANNEL_ROLES)[number];

/**
 * What kind of quantity a channel holds and thereby the SI unit of its values:
 * gaugePressure and absolutePressure Pa; flow m3/s; volume m3; frequency Hz; rotation 1/s (revolutions); fraction 1 (100 % is 1);
 * electricCurrent A; voltage V; power W; state 0 or 1; temperature K; length m; none: the number as the file wrote it.
 */
export const CHANNEL_QUANTITIES = [
  "gaugePressure",
  "absolutePressure",
  "flow",
  "volume",
  "frequency",
  "rotation",
  "fraction",
  "electricCurrent",
  "voltage",
  "power",
  "state",
  "temperature",
  "length",
  "none",
] as const;
export type ChannelQuantity = (typeof CHANNEL_QUANTITIES)[number];
