import type { ChannelRole } from "../record/channel-role";

const WORDS: Readonly<Record<ChannelRole, string>> = {
  time: "time",
  pressure: "pressure",
  flow: "flow",
  speed: "pump speed",
  current: "motor current",
  power: "motor power",
  running: "pump running",
  temperature: "temperature",
  level: "level",
  volume: "volume counter",
  other: "not used",
};

/** What a column stands for, as a person would say it. */
export const sayRole = (role: ChannelRole): string => WORDS[role];
