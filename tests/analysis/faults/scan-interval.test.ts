import { describe, expect, test } from "vitest";
import { scanInterval } from "../../../analysis/faults/scan-interval";
import { seededRandom } from "../../../analysis/numerics/random";
import { every, onChange } from "../../builders/record";

const summed = (steps: number[]) => {
  let t = 0;
  return onChange([0, ...steps.map((step) => (t += step))], t + 1);
};

describe("how often a logger that writes on change looks", () => {
  const chance = seededRandom(5);
  const random = () => chance.next();
  test("whole multiples of one interval are its scans, also where each comes a little early or late", () => {
    const scans = Array.from({ length: 300 }, () => 5 * Math.ceil(-3 * Math.log(1 - random())) + 0.2 * (random() - 0.5));
    expect(scanInterval(summed(scans))).toBeCloseTo(5, 1);
  });
  test("events that come as they please have none", () => {
    // Times between independent events are exponential: no length of them is commoner than its neighbours.
    expect(scanInterval(summed(Array.from({ length: 2000 }, () => -20 * Math.log(1 - random()))))).toBeNull();
    expect(scanInterval(summed(Array.from({ length: 2000 }, () => 10 + 50 * random())))).toBeNull();
  });
  test("few rows and a log that samples have none", () => {
    expect(scanInterval(onChange([0, 5, 10, 20], 30))).toBeNull();
    expect(scanInterval(every(5, 100))).toBeNull();
  });
});
