import type { SimulatedVisit } from "../../analysis/model/simulate-site";
import { shortRuns } from "../../analysis/model/truth";
import { PASCAL_PER_PSI as PSI } from "../../shared/units/pressure";
import { driveOf, GALLON, GPM } from "./model-sites";

const rounded = (value: number, digits: number) => Number(value.toPrecision(digits));
const LONG_SWING = 60; // s

/** The truth of a simulated visit, rounded, as it stands beside the sample. Instants in s from the first row. */
export function truthInWords(visit: SimulatedVisit): Readonly<Record<string, unknown>> {
  const { site, truth } = visit;
  const drive = driveOf(site);
  const swings = truth.oscillations.filter((swing) => swing.to - swing.from >= LONG_SWING);
  return {
    prechargePsi: rounded(site.tank.precharge / PSI, 4),
    tankGal: rounded(site.tank.volume / GALLON, 4),
    gasConstantJ: rounded(truth.gasConstant, 5),
    emptiesAtPsi: rounded(truth.emptiesAt / PSI, 4),
    leakGpm: rounded(truth.systemLeak / GPM, 3),
    backLeakGpm: rounded(truth.backLeak / GPM, 3),
    gainPerPsi: rounded(drive.gain * PSI, 4),
    integralTimeS: drive.integralTime,
    sleepDelayS: drive.sleepDelay,
    runs: truth.runs.length,
    runsUnder60S: shortRuns(truth, 60),
    lowestPsi: rounded(truth.lowestPressure / PSI, 3),
    highestPsi: rounded(truth.highestPressure / PSI, 3),
    oscillationsOverAMinute: swings.map((swing) => ({
      fromS: Math.round(swing.from),
      toS: Math.round(swing.to),
      periodS: rounded(swing.period, 3),
      peakToPeakPsi: rounded(swing.peakToPeak / PSI, 2),
    })),
    steadyDrawsThatDriftOver3Psi: truth.steady
      .filter((window) => Math.abs(window.change) > 3 * PSI)
      .map((window) => ({
        fromS: Math.round(window.from),
        toS: Math.round(window.to),
        flowGpm: rounded(window.flow / GPM, 3),
        changePsi: rounded(window.change / PSI, 2),
      })),
    drawnGal: rounded(truth.volumes.drawn / GALLON, 5),
  };
}
