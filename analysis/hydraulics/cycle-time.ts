import { type CubicMetre, type CubicMetrePerSecond, cubicMetre, type Seconds, seconds } from "../../shared/units/quantity";

/**
 * Time from start to start of a pump that fills a tank between two levels: T = V/Qi + V/(Qp - Qi).
 * For a pump that switches fully on and off; a drive that slows down stretches its run.
 * @param volume V, drawdown between stop and start, m3  @param pumpFlow Qp, m3/s  @param demand Qi, m3/s, above 0 and below Qp
 * @returns s; Infinity where the demand is 0 (never starts again) or the pump never catches up  @throws RangeError where V or Qp is not above 0
 * Source: MIL-HDBK-1005/9A sec. 2.5.3.6. 250 US gal, 100 gpm, 50 gpm drawn: 10 min.
 */
export function cycleTime(volume: CubicMetre, pumpFlow: CubicMetrePerSecond, demand: CubicMetrePerSecond): Seconds {
  if (!(volume > 0 && pumpFlow > 0 && demand >= 0))
    throw new RangeError(`cycleTime: ${volume} m3, pump ${pumpFlow}, demand ${demand} m3/s`);
  if (demand === 0 || demand >= pumpFlow) return seconds(Number.POSITIVE_INFINITY);
  return seconds(volume / demand + volume / (pumpFlow - demand));
}

/** The shortest cycle over all demands, at half the pump's flow: T = 4 V / Qp. Source: as `cycleTime`. */
export function shortestCycleTime(volume: CubicMetre, pumpFlow: CubicMetrePerSecond): Seconds {
  if (!(volume > 0 && pumpFlow > 0)) throw new RangeError(`shortestCycleTime: ${volume} m3, ${pumpFlow} m3/s`);
  return seconds((4 * volume) / pumpFlow);
}

/** The drawdown that keeps the shortest cycle at T: V = Qp T / 4. Source: Army EI 11C201 (UFC 3-240-04A), V = t q / 4. */
export function drawdownForCycle(pumpFlow: CubicMetrePerSecond, cycle: Seconds): CubicMetre {
  if (!(pumpFlow > 0 && cycle > 0)) throw new RangeError(`drawdownForCycle: ${pumpFlow} m3/s, ${cycle} s`);
  return cubicMetre((pumpFlow * cycle) / 4);
}
