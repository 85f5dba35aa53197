import { describe, expect, test } from "vitest";
import type { LogRecord } from "../../../shared/record/log-record";
import { evidenceOf } from "../../builders/evidence";
import { channel, recordOf } from "../../builders/record";
import { GPM, someDraws, tankLog, usualTank } from "../../builders/tank-log";

const meteredAfter = () => tankLog({ ...usualTank, draw: someDraws, seconds: 7200, noise: 500 });
/** The same site with the meter at the pump: it sees the pump's flow while the pump runs. */
const meteredBefore = () => atThePump(meteredAfter());
const atThePump = (record: LogRecord): LogRecord => {
  const running = record.channels.find((c) => c.role === "running")!;
  return recordOf(
    record.channels.map((c) =>
      c.role === "flow"
        ? channel(
            "flow",
            c.sampling,
            running.values.map((on) => on * 12 * GPM),
          )
        : c,
    ),
  );
};
const without = (record: LogRecord, role: string) => recordOf(record.channels.filter((c) => c.role !== role));

describe("where the flow meter stands", () => {
  test("given counts", () => {
    expect(evidenceOf(meteredBefore(), { flowMeter: "after-tank" }).segments.meter).toEqual({
      place: "after-tank",
      from: "given",
      certainty: 1,
    });
  });
  test("flow while the pump rests comes out of the tank", () => {
    expect(evidenceOf(meteredAfter()).segments.meter).toMatchObject({ place: "after-tank", from: "log" });
  });
  test("no flow while the tank empties stands before it", () => {
    expect(evidenceOf(meteredBefore()).segments.meter).toMatchObject({ place: "before-tank", from: "log" });
  });
  test("a leak that empties the tank in most rests does not hide a meter after it", () => {
    const fewDraws = (t: number) => (t % 600 >= 400 ? 2 * GPM : 0);
    const leaking = (meter: "after" | "before") => {
      const record = tankLog({ ...usualTank, draw: fewDraws, unseen: 2.5 * GPM, seconds: 6 * 3600, noise: 500 });
      return meter === "after" ? record : atThePump(record);
    };
    expect(evidenceOf(leaking("after")).segments.meter).toMatchObject({ place: "after-tank", from: "log" });
    expect(evidenceOf(leaking("before")).segments.meter).toMatchObject({ place: "before-tank", from: "log" });
  });
  test("pressure alone tells it too, and the flow before the tank is then the pump's witness", () => {
    expect(evidenceOf(without(meteredAfter(), "running")).segments.meter.place).toBe("after-tank");
    const { meter, pump } = evidenceOf(without(meteredBefore(), "running")).segments;
    expect(meter.place).toBe("before-tank");
    expect(pump).toMatchObject({ basis: "flow" });
  });
  test("a meter that counts in pulses begins and ends with each of them: such bends are a coin, and the falls decide; its pulses are no runs of the pump", () => {
    const pulse = 0.5e-3; // m3
    const pulsed = (record: LogRecord): LogRecord => {
      let count = 0;
      return recordOf(
        record.channels.map((c) => {
          if (c.role !== "flow") return c;
          const passed = Array.from(c.values, (flow) => {
            const before = Math.floor(count / pulse);
            count += flow;
            return (Math.floor(count / pulse) - before) * pulse;
          });
          return channel("flow", c.sampling, passed);
        }),
      );
    };
    const { meter, pump } = evidenceOf(without(pulsed(meteredBefore()), "running")).segments;
    expect(meter.place).toBe("before-tank");
    expect(pump).toMatchObject({ basis: "pressure" });
    expect(evidenceOf(without(pulsed(meteredAfter()), "running")).segments.meter.place).not.toBe("before-tank");
  });
  test("nothing to go by, nothing said", () => {
    expect(evidenceOf(without(meteredAfter(), "flow")).segments.meter).toEqual({ place: null, from: null, certainty: 0 });
  });
});
