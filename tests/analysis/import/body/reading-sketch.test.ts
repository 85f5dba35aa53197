import { expect, test } from "vitest";
import type { SketchedColumn } from "../../../../analysis/import/body/reading-sketch";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

test("the sketch grows with the bytes and never hides a spike", async () => {
  const pressure = Array.from({ length: 20_000 }, (_, i) => (i === 12_345 ? 9 : 3 + (i % 7) / 10));
  const text = `Time (s),Pressure (bar)\n${pressure.map((p, i) => `${String(i).padStart(5, "0")},${p.toFixed(2)}`).join("\n")}\n`;
  const seen: (readonly SketchedColumn[])[] = [];
  await importLog([logFile(text, "log.csv", 10_000)], NO_CHOICES, (_progress, sketch) => void seen.push(sketch()));
  expect(seen.length).toBeGreaterThan(5);
  const filled = seen.map(([{ max }]) => max.filter((v) => !Number.isNaN(v)).length);
  expect(filled).toEqual([...filled].sort((a, b) => a - b));
  const [last] = seen[seen.length - 1];
  expect(filled[filled.length - 1]).toBe(last.max.length);
  expect(last.heading).toBe("Pressure (bar)");
  const part = Math.floor((12_345 / 20_000) * last.max.length);
  expect([part - 1, part, part + 1].some((p) => last.max[p] === Math.fround(9e5))).toBe(true);
  expect(last.max.filter((v) => v > 4e5)).toHaveLength(1);
  expect(last.min.every((v) => v >= Math.fround(3e5))).toBe(true);
});
