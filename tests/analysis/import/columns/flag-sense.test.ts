import { describe, expect, test } from "vitest";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";
import { bar, iso, rows, table, told } from "../../../builders/log-rows";

/** What becomes of a flag that is written as 0, 0, 1, 1 and so on. */
async function flag(heading: string, above = "", words: readonly [string, string] = ["0", "1"]) {
  const quoted = `"${heading}"`;
  const text = table(
    `${above}Time,Pressure (bar),${quoted}`,
    rows(40, 10, (d, i) => `${iso(d)},${(3 + (i % 7) / 10).toFixed(2)},${words[i % 4 < 2 ? 0 : 1]}`),
  );
  const { record, asked } = await told(text);
  const channel = record.channels.find((c) => c.heading === heading);
  return { role: channel?.role, values: Array.from(channel?.values.slice(0, 4) ?? []), asked };
}

const RUNS = { role: "running", values: [0, 0, 1, 1], asked: [] };
const STANDS = { role: "running", values: [1, 1, 0, 0], asked: [] };

describe("a flag that is 1 while the machine stands", () => {
  test.each([
    "Pump off",
    "Pump stopped",
    "Pompe arrêtée",
    "Pumpe aus",
    "Not running",
    "Pump (1 = stopped)",
    "Pump standstill",
    "Bomba parada",
    "Pump 0=run 1=stop",
    "Pump (0=on, 1=off)",
  ])("%s", async (heading) => expect(await flag(heading)).toEqual(STANDS));
  test("by a line above the table", async () => {
    expect(await flag("Pump state", "Pump state: 0 = running, 1 = stopped\n")).toEqual(STANDS);
  });
  test("in words", async () => expect(await flag("Pump stopped", "", ["FALSE", "TRUE"])).toEqual(STANDS));
});

describe("a flag that is 1 while the machine runs", () => {
  test.each(["Pump on/off", "Pump on", "Pump (1 = running)", "Pump run/stop", "Pompe marche/arrêt", "Pumpe ein/aus"])(
    "%s",
    async (heading) => expect(await flag(heading)).toEqual(RUNS),
  );
  test.each([
    ["ferma", "avviata"],
    ["uitgeschakeld", "ingeschakeld"],
    ["désactivée", "activée"],
    ["de-energized", "energized"],
    ["parada", "a funcionar"],
  ] as const)("in words: %s, %s", async (off, on) => expect(await flag("Pump", "", [off, on])).toEqual(RUNS));
});

test("two words under a machine's name of which none is known are asked", async () => {
  expect((await flag("Pump", "", ["down", "up"])).asked).toEqual(["column-role:Pump"]);
});

test("the number or the code of a sensor is no reading of it", async () => {
  for (const heading of ["Pressure sensor ID", "Flow meter no.", "Power supply ID", "Druck Kanal", "Level status code"]) {
    const text = table(
      `Time,${heading},Pressure (bar)`,
      rows(40, 10, (d, i) => `${iso(d)},${heading.includes("code") ? 64 + (i % 3) : 12},${(3 + (i % 7) / 10).toFixed(2)}`),
    );
    const { record, asked } = await told(text);
    expect([heading, asked, record.channels.find((c) => c.heading === heading)?.role ?? "other"]).toEqual([heading, [], "other"]);
  }
});

describe("a flag of two other numbers", () => {
  test.each([
    ["Pump running", "0", "100"],
    ["Pump on", "0", "255"],
    ["Pump running (%)", "0", "100"],
    ["Pump (1 = stopped, 2 = running)", "1", "2"],
  ] as const)("%s: %s and %s", async (heading, off, on) => expect(await flag(heading, "", [off, on])).toEqual(RUNS));
  test("that say how long it stands", async () => expect(await flag("Pump stopped", "", ["0", "100"])).toEqual(STANDS));
  test("of which none is 0 is asked, and the answer holds", async () => {
    const text = table(
      "Time,Pressure (bar),Pump status",
      rows(40, 10, (d, i) => `${iso(d)},${bar(i)},${i % 4 < 2 ? 1 : 2}`),
    );
    const open = await told(text);
    expect(open.asked).toEqual(["column-role:Pump status"]);
    expect(open.record.channels.map(({ role }) => role)).toEqual(["pressure", "other"]);
    const answers = { "column-role:Pump status": "running: 2" };
    const { record } = await importLog([logFile(text, "log.csv")], { ...NO_CHOICES, answers });
    expect(record.questions).toEqual([]);
    expect(Array.from(record.channels[1].values.slice(0, 4))).toEqual([0, 0, 1, 1]);
  });
});
