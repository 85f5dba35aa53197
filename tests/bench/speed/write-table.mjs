import { round } from "./figures.mjs";

/** The result as Markdown. */
export function writeTable(result) {
  const { machine, rounds, loads } = result;
  const parts = [
    `${machine.cores} cores (${machine.model}), ${machine.memoryGiB} GiB, Node ${machine.node}; medians of ${rounds} rounds after one to warm up, contenders in turn. Load of the machine at the end of each part: ${Object.entries(
      loads,
    )
      .map(([name, load]) => `${name} ${round(load, 1)}`)
      .join(", ")}.`,
  ];
  if (result.reading !== null)
    for (const [title, part] of [
      ["Reading 604,800 rows to typed arrays: ISO stamps, commas", result.reading.plain],
      ["The same with semicolons, decimal commas, dd/mm/yyyy", result.reading.awkward],
      ["A station's log: lines above, every cell in quotes, blanks, words, cut rows", result.reading.station],
    ])
      parts.push(`### ${title}`, readers(part));
  if (result.whole !== null)
    parts.push(
      "### Whole process, file to findings, 604,800 rows",
      tableOf(
        ["process", "wall ms", "processor ms", "peak MiB"],
        result.whole.map((p) => (p.refused ? [p.name, p.refused, "", ""] : [p.name, round(p.ms), round(p.cpuMs), round(p.peakMiB)])),
      ),
    );
  if (result.growth !== null)
    parts.push(
      "### Growth of reading",
      tableOf(
        ["rows", "wall ms", "processor ms", "processor ns a row", "peak MiB of the process"],
        result.growth.map((g) => [g.rows.toLocaleString("en-US"), round(g.ms), round(g.cpuMs), round(g.nsPerRow), round(g.peakMiB)]),
      ),
      ...(result.inTwo === null
        ? []
        : [
            `A year on one core: ${round(result.inTwo.oneCoreMs)} ms, by two threads on ${result.inTwo.cores}: ${round(result.inTwo.allCoresMs)} ms, ${round(result.inTwo.ratio, 2)} times as fast.`,
          ]),
      "### Growth of the whole command (one run each)",
      tableOf(
        ["rows", "wall s", "processor s", "processor us a row", "peak MiB", "bytes a row"],
        result.wholeGrowth.map((g) =>
          g.refused
            ? [g.rows, g.refused, "", "", "", ""]
            : [
                g.rows.toLocaleString("en-US"),
                round(g.ms / 1000, 1),
                round(g.cpuMs / 1000, 1),
                round((g.cpuMs * 1000) / g.rows, 2),
                round(g.peakMiB),
                round((g.peakMiB * 2 ** 20) / g.rows),
              ],
        ),
      ),
    );
  if (result.whatIf !== null)
    parts.push(
      "### What if",
      `Fitting the model to seven days at 1 s: ${round(result.whatIf.fitMs)} ms, once.`,
      tableOf(
        ["stretch", "first change ms", "each further change ms"],
        result.whatIf.predictions.map((p) => [`${round(p.seconds / 3600, 1)} h`, round(p.firstMs), round(p.furtherMs)]),
      ),
    );
  if (result.bulk !== null)
    parts.push(
      "### A folder of logs",
      `${result.bulk.logs} logs of a day: ${round(result.bulk.oneCoreMs)} ms on one core, ${round(result.bulk.allCoresMs)} ms on ${result.bulk.cores}: ${round(result.bulk.ratio, 2)} times as fast.`,
    );
  return parts.join("\n\n");
}

function readers({ readers: all, differing }) {
  const rows = all.map((r) =>
    r.refused
      ? [r.name, `left out: ${r.refused}`, "", "", "", "", ""]
      : [
          r.name,
          r.cores,
          round(r.mbPerS),
          round(r.ms),
          round(r.cpuMs),
          round(r.peakMiB),
          `${round(r.timesOurs, 2)} / ${round(r.cpuTimesOurs, 2)}`,
        ],
  );
  const same = differing.length === 0 ? "All read the same rows and sums." : `Not all read the same: ${differing.join("; ")}.`;
  return `${tableOf(["reader", "cores", "MB/s", "ms", "processor ms", "peak MiB", "times ours: wall / processor"], rows)}\n\n${same}`;
}

const tableOf = (headings, rows) => [headings, headings.map(() => "---"), ...rows].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
