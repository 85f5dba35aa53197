import { describe, expect, test } from "vitest";
import type { BandKind } from "../../../../shared/wording/band";
import type { Band } from "../../../../src/charts/bands";
import type { Strip } from "../../../../src/charts/strips";
import { bandsShown, layoutOf, stripHeight } from "../../../../src/views/trace/trace-layout";

const band = (kind: BandKind, finding: Band["finding"] = null): Band => ({ kind, finding, places: [] });
const ALL = [
  band("running", "cycling"),
  band("short-cycles", "short-cycles"),
  band("draw"),
  band("steady"),
  band("drift", "drift"),
  band("oscillation", "oscillation"),
];
const nothing = { finding: null, span: null };
const pressure: Strip = { quantity: "gaugePressure", title: "Pressure", shown: "gaugePressure", channels: [0], low: 0, high: 1 };

describe("pinned on a narrow page", () => {
  const pinned = layoutOf({ isBeside: false, isLarge: false }, 360, 740);
  test("strip and three bands leave room for the story", () => {
    expect(pinned.kind).toBe("pinned");
    expect(bandsShown(ALL, nothing, pinned).map(({ kind }) => kind)).toEqual(["running", "short-cycles", "oscillation"]);
    expect(stripHeight(pressure, true, true, pinned)).toBeLessThan(740 / 5);
  });
  test("the band that is lit is always among them, in its place", () => {
    expect(bandsShown(ALL, { finding: "drift", span: null }, pinned).map(({ kind }) => kind)).toEqual(["running", "drift", "oscillation"]);
  });
  test("made large, it shows everything", () => {
    expect(bandsShown(ALL, nothing, layoutOf({ isBeside: false, isLarge: true }, 360, 740))).toEqual(ALL);
  });
});

test("pinned on a tablet it keeps to a third of the height, with all its tools", () => {
  const tablet = layoutOf({ isBeside: false, isLarge: false }, 800, 1100);
  expect(tablet.isRoomy).toBe(true);
  expect(stripHeight(pressure, true, true, tablet) + 22 + 3 * 19 + 130).toBeLessThan(1100 * 0.4);
});

test("on a wide page three strips and six bands fit into the height in sight", () => {
  for (const height of [720, 900, 1200]) {
    const wide = layoutOf({ isBeside: true, isLarge: false }, 900, height);
    const strips = stripHeight(pressure, true, false, wide) + 2 * stripHeight({ ...pressure, quantity: "flow" }, false, false, wide);
    expect(strips + 3 * 22 + 6 * 19 + 130).toBeLessThan(height);
  }
});
