import { analyse } from "../../../analysis/analyse";
import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import { fitSite } from "../../../analysis/model/fit";
import { whatIf } from "../../../analysis/model/what-if";
import { inGauge } from "../../../shared/record/in-gauge";
import { seconds } from "../../../shared/units/quantity";
import { openLog, readSiteFile } from "../../../src/command-line/files";

/** `first`: the site as it is and as changed, ms; `further`: each change after that, the site as it is being kept, as the page keeps it. */
export type WhatIfTimes = { readonly seconds: number; readonly first: readonly number[]; readonly further: readonly number[] };

/** Times of predictions over stretches of these lengths, s, around the middle of a log; the fit is made once and timed apart. */
export async function timeWhatIf(path: string, sitePath: string, lengths: readonly number[], rounds: number) {
  const site = await readSiteFile(sitePath);
  const { record } = await importLog([await openLog(path)], { ...NO_CHOICES, zone: site.zone });
  const { segments, outcomes, faults } = analyse(record, site);
  const began = performance.now();
  const fitted = fitSite(inGauge(record, site.atmosphere.value), segments, outcomes, site, faults);
  const fitMs = performance.now() - began;
  if (fitted === null) return { fitMs, predictions: [] };
  const predictions = lengths.map((length): WhatIfTimes => {
    const from = Math.max(0, record.duration / 2 - length / 2);
    const span = { from: seconds(from), to: seconds(Math.min(record.duration, from + length)) };
    const changes = [{ id: "precharge" as const, to: 200e3 }];
    const known = whatIf(fitted, site, segments, outcomes, changes, span)?.now ?? null;
    const time = (now: typeof known) =>
      Array.from({ length: rounds }, () => {
        const start = performance.now();
        whatIf(fitted, site, segments, outcomes, changes, span, now);
        return performance.now() - start;
      });
    return { seconds: span.to - span.from, first: time(null), further: time(known) };
  });
  return { fitMs, predictions };
}
