import { describe, expect, test } from "vitest";
import { SiteFileError } from "../../../shared/problems/site-file-problem";
import { NO_SITE_FACTS, readSiteFacts } from "../../../shared/site/read-site-facts";
import { saySiteFileProblem } from "../../../shared/wording/site-file-problem";

const problemOf = (written: unknown) => {
  try {
    readSiteFacts(written, "site.json");
  } catch (error) {
    if (error instanceof SiteFileError) return saySiteFileProblem(error.problem);
    throw error;
  }
  return null;
};

describe("site facts as people write them", () => {
  // Factors: NIST SP 811, App. B.8.
  test("become SI and keep the words", () => {
    const site = readSiteFacts(
      { setPressure: "52 psi", tankVolume: "20 gal", pumpRatedFlow: "40 gpm", pipeInsideDiameter: "1.25 in" },
      "site.json",
    );
    expect(site.setPressure?.value).toBeCloseTo(358527.4, 0);
    expect(site.setPressure?.text).toBe("52 psi");
    expect(site.tankVolume?.value).toBeCloseTo(0.0757082, 6);
    expect(site.pumpRatedFlow?.value).toBeCloseTo(2.523608e-3, 8);
    expect(site.pipeInsideDiameter?.value).toBeCloseTo(0.03175, 9);
  });
  test("a head of water stands for a pressure", () =>
    expect(readSiteFacts({ setPressure: "30 m" }, "").setPressure?.value).toBeCloseTo(294199.5, 1));
  test("air pressure follows the altitude", () => {
    expect(readSiteFacts({ altitude: "2000 m" }, "").atmosphere.value).toBeCloseTo(79495, -1); // ISA 1976
    expect(NO_SITE_FACTS.atmosphere).toMatchObject({ value: 101325, from: "assumed" });
  });
  test("limits not given are assumed, and say so", () => {
    expect(NO_SITE_FACTS.limits.driftAtSteadyFlow.from).toBe("assumed");
    expect(NO_SITE_FACTS.limits.startsPerHour).toBeNull();
    expect(NO_SITE_FACTS.shortCycleLimit.value).toBe(60);
  });
});

describe("a fact that cannot be used is refused with a sentence", () => {
  test.each([
    [{ setPresure: "52 psi" }, /"setPresure" is not a site fact.*setPressure/],
    [{ setPressure: "52" }, /"setPressure" reads "52".*52 psi/],
    [{ setPressure: 52 }, /"setPressure" reads "52"/],
    [{ setPressure: "52 gpm" }, /52 psi/],
    [{ tankVolume: "-20 gal" }, /20 gal/],
    [{ pump: "steam" }, /"variable-speed" or "fixed-speed"/],
    [{ zone: "Mars/Olympus" }, /IANA/],
    [{ limits: { bnad: "3 psi" } }, /limits\.bnad/],
    [{ cutIn: "60 psi", cutOut: "40 psi" }, /contradict/],
    [{ altitude: "90000 m" }, /200 m/],
    [[], /one object/],
    [null, /one object/],
  ])("%j", (written, sentence) => expect(problemOf(written)).toMatch(sentence));
});
