import { NO_CHOICES } from "../../analysis/import/import-choices";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import type { Handle } from "./handle";
import type { PickedFile } from "./messages";

/** Long enough that what is called for every row is compiled at the end of it, short enough to be over while a file is picked. */
const ROWS = 5000;
/** A pump that runs a third of the time, s: the questions about its runs are asked too. */
const RUN = 120;
const CYCLE = 360;
const ONLY_JOB = 1;

export type Rehearsal = { begin(): void; end(): void };

/**
 * Reads and works out a log made up on the spot, of which nothing is kept: an engine runs code slowly until it has met it, and this way it
 * meets it while the hand still holds the file.
 * @param handle one of its own, since what it reads is not what the page shows
 */
export function makeRehearsal(handle: Handle): Rehearsal {
  const nobody = () => {};
  const job = { choices: NO_CHOICES, site: NO_SITE_FACTS, units: US_UNITS };
  return {
    begin: () => void handle({ ask: "read", id: ONLY_JOB, files: [madeUpLog()], ...job }, nobody),
    end: () => void handle({ ask: "stop", id: ONLY_JOB }, nobody),
  };
}

function madeUpLog(): PickedFile {
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const phase = i % CYCLE;
    const runs = phase < RUN;
    const stamp = new Date(i * 1000).toISOString().slice(0, 19);
    const pressure = runs ? 50 + phase / 8 + Math.sin(i) : 65 - (phase - RUN) / 16;
    return `${stamp},${pressure.toFixed(2)},${runs ? 9 : 3}.${i % 10},${runs ? 48 : 0}\n`;
  });
  return { name: "", blob: new Blob(["Time,Pressure [psi],Flow [gpm],Speed [Hz]\n", ...rows]) };
}
