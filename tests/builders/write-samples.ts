import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { visitCsv } from "../../analysis/model/visit-csv";
import { SAMPLE_VISITS } from "./sample-visits";
import { truthInWords } from "./truth-in-words";

/** Writes every sample visit into a folder: the log, the site file, and what is true of it. Run by `npm run samples`. */
export function writeSamples(folder: string): void {
  for (const sample of SAMPLE_VISITS) {
    const visit = sample.visit();
    writeFileSync(join(folder, `${sample.name}.csv`), visitCsv(visit));
    writeFileSync(join(folder, `${sample.name}.site.json`), `${JSON.stringify(sample.site, null, 2)}\n`);
    writeFileSync(join(folder, `${sample.name}.truth.json`), `${JSON.stringify(truthInWords(visit), null, 2)}\n`);
  }
}
