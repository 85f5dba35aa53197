import { describe, expect, test } from "vitest";
import { LOOKS, observeAll } from "../../../../analysis/diagnosis/observations";
import { rank } from "../../../../analysis/diagnosis/rank";
import { STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { psi } from "../../../builders/outcomes";
import { type Worked, workedHours } from "../../../builders/worked-hours";

const look = (worked: Worked) => LOOKS["fall-breaks"](workedHours(worked));
/** Rests begin at 52 psi and end at 32; in them 1/p(abs) rises evenly with the water drawn while there is gas (Boyle), and from the charge on 40 times as fast: only pipes give. */
const through =
  (charge: (t: number) => number, seconds = 290) =>
  (k: number, t: number) => {
    const [air, knee] = [STANDARD_ATMOSPHERE / psi(1), charge(t)];
    if (k >= 300) return 52;
    const since = Math.max(0, k - (300 - seconds));
    const [top, at, end] = [52, knee, 32].map((p) => 1 / (p + air));
    const rate = (at - top + (end - at) / 40) / seconds;
    const inverse = since * rate < at - top ? top + since * rate : at + 40 * (since * rate - (at - top));
    return 1 / inverse - air;
  };

describe("where the falls before the starts break", () => {
  test("a tank that is empty at 46 psi of a set pressure of 52 breaks there each time", () => {
    const seen = look({ pressure: through(() => 46) });
    expect(seen?.level).toBe("near-set");
    expect(Number(seen?.numbers.breaksAt) / psi(1)).toBeCloseTo(46, 0);
  });
  test("one that is empty at 36 psi breaks below: that suits 52 psi", () => {
    expect(look({ pressure: through(() => 36) })?.level).toBe("below");
  });
  test("a tank with next to no gas falls in one slope from the top, whenever the draw begins", () => {
    expect(look({ pressure: through(() => 32.01, 8) })?.level).toBe("nowhere");
  });
  test("a fall that slows down, as a draw that ends, does not break", () => {
    const slows = (k: number) => (k >= 300 ? 52 : k < 60 ? 52 - k / 5 : 40 - (k - 60) / 40);
    expect(look({ pressure: slows })?.level ?? "nowhere").toBe("nowhere");
  });
  test("draws that add up bend a fall as sharply, but anywhere", () => {
    const anywhere = (t: number) => 36 + ((Math.floor(t / 600) * 5) % 12);
    expect(look({ pressure: through(anywhere) })?.level).toBe("nowhere");
  });
  test("with nothing else known a break before the witnessed start stands too high for it", () => {
    const unknown = { setPressure: undefined, restartPressure: undefined, pump: undefined };
    expect(look({ pressure: through(() => 46), facts: unknown })?.level).toBe("near-set");
    expect(look({ pressure: through(() => 46), facts: unknown, pumpKnown: false })).toBeNull();
  });
});

test("the break puts the high charge first; without one it is not, and the tank without gas stands before it", () => {
  const order = (worked: Worked) => rank(observeAll(workedHours(worked))).map(({ id }) => id);
  expect(order({ pressure: through(() => 46) })[0]).toBe("precharge-high");
  const stiff = order({ pressure: through(() => 32.01, 8) });
  expect(stiff[0]).not.toBe("precharge-high");
  expect(stiff.indexOf("tank-waterlogged")).toBeLessThan(stiff.indexOf("precharge-high"));
});
