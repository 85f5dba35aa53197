import { describe, expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { logFile } from "../../builders/log-file";

/** Logs of one channel under a start and an interval, as loggers with one input write them. Common practice, no source; 3.00 bar is 300 kPa. */
const PREAMBLE = "Serial number: 4471\nBegin: 2022-04-19 09:15:00\nInterval: 30 s\n";
const bar = Array.from({ length: 60 }, (_, i) => 3 + ((i * 37) % 50) / 100);
const lines = (write: (value: string) => string) => `${bar.map((value) => write(value.toFixed(2))).join("\n")}\n`;

describe("one column of data keeps its heading", () => {
  const forms: Record<string, string> = {
    "of two words": `Pressure (bar)\n${lines((value) => value)}`,
    "under a blank line": `\nPressure (bar)\n${lines((value) => value)}`,
    "over decimal commas": `Pressure (bar)\n${lines((value) => value.replace(".", ","))}`,
    "over values with their unit": `Pressure (bar)\n${lines((value) => `${value} bar`)}`,
    "with a delimiter at the end": `Pressure (bar);\n${lines((value) => `${value};`)}`,
    "with marks of missing values": `Pressure (bar)\n${lines((value) => value)}---\n3.00\n`,
  };
  for (const [form, text] of Object.entries(forms)) {
    test(form, async () => {
      const { record } = await importLog([logFile(PREAMBLE + text)]);
      expect(record.questions).toEqual([]);
      expect(record.channels.map(({ heading, role, unitInFile }) => [heading, role, unitInFile])).toEqual([
        ["Pressure (bar)", "pressure", "bar"],
      ]);
      expect(record.channels[0].values[0]).toBeCloseTo(300_000, 0);
      expect(record.channels[0].sampling).toMatchObject({ kind: "even", step: 30 });
    });
  }
});
