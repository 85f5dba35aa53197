import { mainChannel } from "../../../shared/record/find-channel";
import { instantsOf } from "../../segments/instants";
import { PRACTICE_SHARE_OF_MINUTE } from "../practice";
import { traceIn } from "./at-work";
import { cutInOf, isFixedSpeed, type Looks, levelFor, type Sight, setPressureOf } from "./sight";
import { usualCharge } from "./tank";

const MINUTE = 60;

/** What is looked through; `run` -1 where the pump is at rest, or where nothing is known of it. Shapes [n]. */
type Looked = { readonly times: Float64Array; readonly pressure: ArrayLike<number>; readonly run: Int32Array; readonly interval: number };

/**
 * The trace, or where the pump's state is not known the pressure alone: while the pump gives, the pressure falls less, dp/dt = (Qp - Qd)/C, so that the
 * bound holds in runs too. Where the state is known runs are left out, since a loop's swing at a far sensor is not the tank's.
 */
function lookedAt(sight: Sight): Looked | null {
  const trace = traceIn(sight);
  if (trace !== null) return trace;
  const channel = mainChannel(sight.record, "pressure");
  if (channel === null || channel.values.length < 60) return null;
  const times = instantsOf(channel.sampling);
  const interval = (times[times.length - 1] - times[0]) / (times.length - 1);
  return { times, pressure: channel.values, run: new Int32Array(times.length).fill(-1), interval };
}

/** Largest fall between samples at rest, Pa/s, the third largest so that no single reading decides; null with too few. */
function steepestFall({ times, pressure, run }: Looked): { readonly fall: number; readonly at: number } | null {
  const top: { fall: number; at: number }[] = [];
  for (let i = 1; i < times.length; i++) {
    if (run[i] >= 0 || run[i - 1] >= 0) continue;
    const fall = (pressure[i - 1] - pressure[i]) / (times[i] - times[i - 1]);
    if (!(fall > 0) || (top.length === 3 && fall <= top[2].fall)) continue;
    top.push({ fall, at: pressure[i] });
    top.sort((a, b) => b.fall - a.fall);
    if (top.length > 3) top.pop();
  }
  return top.length < 3 ? null : top[2];
}

export const steepestFallLooks: Pick<Looks, "steepest-fall"> = {
  /**
   * With the pump at rest the tank alone feeds the draw: -dp/dt = Q / C, C = K / p^2 (isothermal). No meter says Q, but hardly anyone draws
   * more than the pump is rated for, so K <= Q_rated p^2 / |dp/dt|: an upper bound of the gas at work. Held against the tank of the facts,
   * or what practice gives this pump. A bound well above says nothing; that is why only "impossible" speaks.
   */
  "steepest-fall"(sight) {
    const trace = lookedAt(sight);
    const { site } = sight;
    const rated = site.pumpRatedFlow?.value ?? null;
    const charge = usualCharge(sight);
    const held = isFixedSpeed(site) ? cutInOf(sight) : setPressureOf(sight);
    const steepest = trace === null || trace.interval > 10 ? null : steepestFall(trace);
    if (steepest === null || rated === null || charge === null || held === null) return null;
    const air = site.atmosphere.value;
    const volume = site.tankVolume?.value ?? (isFixedSpeed(site) ? null : PRACTICE_SHARE_OF_MINUTE * rated * MINUTE);
    if (volume === null) return null;
    const expected = volume * (charge + air);
    const most = (rated * (steepest.at + air) ** 2) / steepest.fall;
    const ratio = most / expected;
    return {
      level: levelFor(ratio, [0.15, 0.5], ["impossible", "strained", "possible"]),
      numbers: { fall: steepest.fall, most, expected, ratio },
    };
  },
};
