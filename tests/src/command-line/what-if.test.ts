import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { UsageError } from "../../../src/command-line/options";
import { runWhatIf } from "../../../src/command-line/what-if";

const visits = join(import.meta.dirname, "../../../sample-data/visits");
const log = join(visits, "orchard-healthy.csv");
const site = join(visits, "orchard-healthy.site.json");

afterEach(() => vi.restoreAllMocks());

async function run(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ["", ""];
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    out += String(text);
    return true;
  });
  vi.spyOn(console, "error").mockImplementation((text) => {
    err += String(text);
  });
  return { code: await runWhatIf(args), out, err };
}

describe("what-if on the command line", () => {
  test("predicts a change over a stretch of the record, as JSON in SI", async () => {
    const { code, out } = await run(
      log,
      "--site",
      site,
      "--change",
      "precharge=20 psi",
      "--from",
      "2026-05-18T08:00",
      "--to",
      "2026-05-18T11:00",
      "--json",
    );
    const document = JSON.parse(out);
    expect(code).toBe(0);
    expect(document.span).toEqual({ from: 28800, to: 39600 });
    expect(document.explained).toBeGreaterThan(0.7);
    expect(document.changes).toEqual([{ id: "precharge", to: expect.closeTo(137895, 0) }]);
    expect(document.after["stored-water"].value).toBeLessThan(0.8 * document.now["stored-water"].value);
    expect(document.parameters.map((p: { id: string }) => p.id)).toContain("gas-constant");
  });

  test("prints a page that names measures, model and where each figure comes from", async () => {
    const { code, out } = await run(log, "--site", site, "--change", "gain=0.5", "--from", "8", "--to", "9");
    expect(code).toBe(0);
    for (const words of ["What if: Loop gain times 0.5", "Starts", "Lowest pressure", "read from the log", "from the site facts"])
      expect(out).toContain(words);
  });

  test("a site within its limits needs no change", async () => {
    const { out } = await run(log, "--site", site, "--search", "--from", "8", "--to", "10");
    expect(out).toContain("nothing needs changing");
  });

  test("wrong usage says how to call it", async () => {
    await expect(runWhatIf([log])).rejects.toThrow(UsageError);
    await expect(runWhatIf([])).rejects.toThrow(/what-if LOG.csv/);
    await expect(runWhatIf([log, "--change", "precharge=38 gpm"])).rejects.toThrow(/a pressure above the air, as "38 psi"/);
    await expect(runWhatIf([log, "--change", "gain=0.5", "--from", "9", "--to", "8"])).rejects.toThrow(/--from must lie before --to/);
  });

  test("a file that cannot be read as a log: a sentence and exit 3", async () => {
    const { code, err } = await run(site, "--change", "gain=0.5");
    expect(code).toBe(3);
    expect(err.length).toBeGreaterThan(20);
  });
});
