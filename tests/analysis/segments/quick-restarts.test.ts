import { expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell } from "../../../shared/findings/segment";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

type Row = readonly [speed: number, psi: number];
const held = (seconds: number): Row[] => Array.from({ length: seconds }, () => [0.8, 55]);
const plainRest: Row[] = [...Array.from({ length: 30 }, (_, s): Row => [0, 55 - s / 5]), [0.3, 49], [0.6, 52], [0.9, 57]];
/** Let go at 0.8, caught at 0.3 two seconds later: the speed never came down to rest, the pressure fell by what a small tank lets it. */
const quickRestart: Row[] = [
  [0.59, 52],
  [0.31, 48],
  [0.54, 47],
  [0.76, 50],
  [0.95, 57],
];
/** A loop slows the pump down because the pressure is high. */
const slowedByLoop: Row[] = [
  [0.59, 59],
  [0.4, 61],
  [0.54, 59],
];

function startsIn(rows: readonly Row[], withPressure = true): number[] {
  const chance = seededRandom(5);
  const speed = channel(
    "speed",
    every(1, rows.length),
    rows.map(([s]) => s),
  );
  const psi = rows.map(([, p]) => p * PSI + 300 * chance.normal());
  const { pump } = evidenceOf(recordOf(withPressure ? [speed, channel("pressure", every(1, psi.length), psi)] : [speed])).segments;
  if (isCannotTell(pump)) throw new Error(JSON.stringify(pump));
  return pump.runs.map((run) => run.from);
}
const visit = (...middle: Row[]) => [0, 1, 2, 3].flatMap(() => [...plainRest, ...held(80), ...middle, ...held(80)]);

test("a stop and a start within the drive's ramp are two runs where the pressure fell to where starts lie", () => {
  const starts = startsIn(visit(...quickRestart));
  expect(starts).toHaveLength(8);
  for (let k = 0; k < 4; k++) expect(Math.abs(starts[2 * k + 1] - (198 * k + 33 + 80 + 1))).toBeLessThanOrEqual(2);
});
test("a speed that dips while the pressure is high is a loop's", () => expect(startsIn(visit(...slowedByLoop))).toHaveLength(4));
test("without a pressure nothing is cut", () => expect(startsIn(visit(...quickRestart), false)).toHaveLength(4));
