import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { pumpFromPressure } from "../../../analysis/segments/pump-from-pressure";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { channel, every, recordOf } from "../../builders/record";

const HELD = 60; // psi
const RESTART = 54;
const NOWHERE = { place: null, from: null, certainty: 0 } as const;

type Part =
  | { readonly kind: "cycle"; readonly restart: number; readonly falls: number }
  | { readonly kind: "waves"; readonly count: number; readonly height: number; readonly lasts: number };

/**
 * A drive that holds its pressure: a cycle is a hold, an even fall to the restart pressure and a rise in 8 s; waves swing round the held pressure as a hot loop makes them. Every start is known.
 * @param step s between two samples
 */
function drive(parts: readonly Part[], { step = 1, facts = {} }: { step?: number; facts?: Record<string, unknown> } = {}) {
  const chance = seededRandom(5);
  const psi: number[] = [];
  const starts: number[] = [];
  const hold = (lasts: number) => psi.push(...Array.from({ length: lasts }, () => HELD));
  hold(60);
  parts.forEach((part, k) => {
    if (part.kind === "waves") {
      const wave = (i: number) => HELD - (part.height / 2) * Math.sin((2 * Math.PI * i) / part.lasts);
      psi.push(...Array.from({ length: part.count * part.lasts }, (_, i) => wave(i)));
    } else {
      const { restart } = part;
      psi.push(...Array.from({ length: part.falls }, (_, i) => HELD - ((HELD - restart) * i) / part.falls));
      starts.push(psi.length);
      psi.push(...Array.from({ length: 8 }, (_, i) => restart + ((HELD - restart) * i) / 8));
    }
    hold(40 + 7 * (k % 9));
  });
  const seen = psi.filter((_, i) => i % step === 0).map((value) => value * PSI + 300 * chance.normal());
  const record = recordOf([channel("pressure", every(step, seen.length), seen)]);
  return { starts, pump: pumpFromPressure(record, [], readSiteFacts({ pump: "variable-speed", ...facts }, "site"), NOWHERE) };
}

const cycles = (count: number, restart = RESTART): Part[] =>
  Array.from({ length: count }, (_, k) => ({ kind: "cycle", restart, falls: 40 + 11 * (k % 7) }));
const alike = (found: readonly number[], truth: readonly number[]) =>
  found.length === truth.length && found.every((t, i) => Math.abs(t - truth[i]) <= 3);
const startsFound = ({ pump }: ReturnType<typeof drive>) => (pump?.runs ?? []).filter(({ from }) => from > 0).map(({ from }) => from);

describe("starts of a drive by pressure alone", () => {
  test("are the ends of its rests, with nothing against them", () => {
    const plain = drive(cycles(14));
    expect(alike(startsFound(plain), plain.starts)).toBe(true);
    expect(plain.pump?.doubt).toBeUndefined();
  });
  test("are told from waves as high by the restart pressure of the site", () => {
    const waves: Part = { kind: "waves", count: 20, height: 9, lasts: 24 };
    const mixed = drive([...cycles(8), waves, ...cycles(6), waves], { facts: { restartPressure: "54 psi" } });
    expect(alike(startsFound(mixed), mixed.starts)).toBe(true);
  });
  test("are in doubt where some of them come to and fro as waves do", () => {
    const waves: Part = { kind: "waves", count: 12, height: 12, lasts: 24 };
    const { pump } = drive([...cycles(12), waves, ...cycles(12)]);
    expect(pump === null || pump.doubt?.detail.lows === "waves").toBe(true);
  });
  test("are in doubt where rests end at a second restart pressure too, which were not counted", () => {
    const both = drive([...cycles(20, 45), ...cycles(12, 55)]);
    const found = startsFound(both);
    expect(alike(found, both.starts) || both.pump === null || both.pump.doubt?.detail.lows === "others").toBe(true);
    expect(found.length).toBeLessThan(both.starts.length);
    expect(both.pump?.doubt).toMatchObject({ about: "starts", detail: { lows: "others" } });
  });
  test("are in doubt where a low may lie unseen between two samples", () => {
    const { pump } = drive(cycles(30), { step: 20 });
    expect(pump === null || pump.doubt?.id === "sampling-too-slow").toBe(true);
  });
  test("are in doubt where some lie as far under the restart pressure of the site as the held one lies over it: a draw may take a running pump there", () => {
    const deep = drive([...cycles(10), ...cycles(6, 44)], { facts: { restartPressure: "54 psi" } });
    expect(deep.pump?.doubt?.detail.lows).toBe("overdrawn");
  });
  test("take no restart pressure for true that does not fit to what the log holds: a sensor in another scale", () => {
    const scaled = drive(cycles(14), { facts: { restartPressure: "30 psi" } });
    expect(alike(startsFound(scaled), scaled.starts)).toBe(true);
  });
});
