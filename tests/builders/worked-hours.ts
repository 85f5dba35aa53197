import type { Sight } from "../../analysis/diagnosis/observations/sight";
import type { Channel } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import { channelOf, gpm, psi, pumpWith, recordOf, SITE_AS_WRITTEN, segmentsWith, siteOf } from "./outcomes";

/** What a second shows: k seconds into a cycle of 600 s, t seconds into the record. */
type At = (k: number, t: number) => number;
export type Worked = {
  /** psi, fraction, gpm. Speed or flow null: not logged. */
  readonly pressure: At;
  readonly speed?: At | null;
  readonly flow?: At | null;
  readonly step?: number;
  readonly facts?: Readonly<Record<string, unknown>>;
  readonly pumpKnown?: boolean;
  /** Begin and length of each run, s. */
  readonly pumpRuns?: readonly (readonly [number, number])[];
};
export const running = (k: number) => k >= 300;

/** Two hours drawn by hand: the pump rests for 300 s and runs for 300 s, twelve times. */
export function workedHours({
  pressure,
  speed = (k) => (running(k) ? 0.8 : 0),
  flow = () => 10,
  step = 1,
  facts = {},
  pumpKnown = true,
  pumpRuns = Array.from({ length: 12 }, (_, i) => [i * 600 + 300, 300] as const),
}: Worked): Sight {
  const all = (at: At, into: (v: number) => number) => Array.from({ length: 7200 / step }, (_, i) => into(at((i * step) % 600, i * step)));
  const channels: Channel[] = [channelOf("pressure", "gaugePressure", all(pressure, psi), step)];
  if (flow !== null) channels.push(channelOf("flow", "flow", all(flow, gpm), step));
  if (speed !== null) channels.push(channelOf("speed", "fraction", all(speed, Number), step));
  const pump = {
    ...pumpWith(pumpRuns),
    observed: [{ from: seconds(0), to: seconds(7200) }],
  };
  return {
    outcomes: [],
    segments: segmentsWith(pumpKnown ? pump : null),
    site: siteOf({ ...SITE_AS_WRITTEN, ...facts }),
    record: recordOf(channels, 2),
  };
}
