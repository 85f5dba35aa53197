import { describe, expect, test } from "vitest";
import { AMOUNT_IDS } from "../../shared/findings/advice";
import { amountWords } from "../../shared/wording/amount";
import { sourceFiles } from "../house/source-files";

/** Seconds in a minute and the like, and versions of our own forms, need no source. */
const TIME = /^(?:MINUTE|HOUR|DAY|QUARTER|YEAR|WEEK|[A-Z]+_VERSION)$/;
const CONSTANT = /^(?:export )?const ([A-Z][A-Z0-9_]*)(?: *:[^=]+)? = (?:-?[\d.(]|Math|\d)/;
/** A published source, a definition, or the plain word that there is none. */
const SOURCE =
  /NIST|ISO\b|IAPWS|IEC|NEMA|MIL-|Standards?\b|standard|Kell|Boyle|defined|exact|practice|from memory|trade-body|Skogestad|Ziegler|\b(?:18|19|20)\d\d\b/;

type Constant = { readonly at: string; readonly name: string; readonly comment: string };

/** Named numbers at the top of a file with what is written beside or above them; a run of constants shares the comment above its first. */
function constantsIn(folder: string): readonly Constant[] {
  return sourceFiles(folder).flatMap(({ path, text }) => {
    let above = "";
    let comment = "";
    return text.split("\n").flatMap((line, i): readonly Constant[] => {
      const name = CONSTANT.exec(line)?.[1];
      if (name === undefined) {
        if (/^\s*(?:\/\*\*|\*|\/\/)/.test(line)) comment += line;
        else {
          above = "";
          comment = "";
        }
        if (line.includes("*/")) above = comment;
        return [];
      }
      return TIME.test(name) ? [] : [{ at: `${path}:${i + 1}`, name, comment: above + (line.split("//")[1] ?? "") }];
    });
  });
}

const TRADE = ["analysis/hydraulics", "analysis/acceptance", "shared/site", "shared/units"].flatMap(constantsIn);
const PRACTICE = constantsIn("analysis/diagnosis").filter(({ at }) => at.includes("/practice.ts"));
/** Our own judgement, in the rooms that decide what a log shows. */
const JUDGED = ["advice", "comparison", "detectors", "diagnosis", "faults", "segments"].flatMap((room) => constantsIn(`analysis/${room}`));
/** A least or greatest number of things says by its name what it counts. */
const COUNT = /^(?:LEAST|MOST|FEWEST)_[A-Z_]+$/;

describe("constants say where they are from", () => {
  test("there are constants to look at", () => expect(Math.min(TRADE.length, PRACTICE.length, JUDGED.length)).toBeGreaterThan(1));
  test("a figure of the trade or of nature has its source, or says that it has none", () => {
    const shown = new Set(["LONGEST_SHOWN", "READING_FIGURES"]); // how much of a text or a number is shown is no figure of the trade
    expect([...TRADE, ...PRACTICE].filter(({ name, comment }) => !SOURCE.test(comment) && !shown.has(name))).toEqual([]);
  });
  test("a figure of our own judgement says what it is for", () => {
    expect(
      JUDGED.filter(({ comment, name }) => !COUNT.test(name) && comment.replace(/[/* ]/g, "").length < 5).map(
        ({ at, name }) => `${at} ${name}`,
      ),
    ).toEqual([]);
  });
  test("every amount that is advised has a formula and a source", () => {
    for (const id of AMOUNT_IDS) {
      expect(amountWords(id).formula.length, id).toBeGreaterThan(5);
      expect(amountWords(id).source.length, id).toBeGreaterThan(5);
    }
  });
});
