import { CAUSE_IDS } from "../../../shared/findings/cause";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { causeVisit } from "./cause-sites";

const [only = "", count = "8"] = process.argv.slice(2);
for (const id of CAUSE_IDS.filter((c) => only.split(",").includes(c)))
  for (let s = 0; s < Number(count); s++) {
    const { visit, draft, as } = causeVisit(id, (100 + s) * 100 + CAUSE_IDS.indexOf(id));
    const t = visit.truth;
    const d = draft.duration;
    const osc = t.oscillations.reduce((a, o) => a + o.to - o.from, 0);
    const p2p = osc ? t.oscillations.reduce((a, o) => a + o.peakToPeak * (o.to - o.from), 0) / osc : 0;
    const per = osc ? t.oscillations.reduce((a, o) => a + o.period * (o.to - o.from), 0) / osc : 0;
    const run = t.runs.reduce((a, r) => a + r.to - r.from, 0);
    console.log(
      `${id} run ${(run / d).toFixed(2)} st/h ${((t.runs.length * 3600) / d).toFixed(1)} osc/run ${(osc / run).toFixed(2)} p2p ${(p2p / PSI).toFixed(1)} T ${per.toFixed(1)} low ${(t.lowestPressure / as.set).toFixed(2)} high ${(t.highestPressure / as.set).toFixed(2)} log ${draft.site.logger.interval} s`,
    );
  }
