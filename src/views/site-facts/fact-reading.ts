import type { FactKey } from "../../../shared/site/fact-key";
import type { Fact, SiteFacts } from "../../../shared/site/site-facts";
import { formatQuantity, type Shown } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { SITE_FACTS_WORDS } from "../../../shared/wording/site-fact";

type Read = { readonly fact: Fact<number>; readonly shown: Shown };

/** What is said under a field: the value in the reader's own units where it was written in others, or what is assumed meanwhile. */
export function factReading(key: FactKey, site: SiteFacts, units: UnitChoice): string | null {
  const read = quantityOf(key, site);
  if (read === null) return null;
  if (read.fact.from === "company") return SITE_FACTS_WORDS.companyLimit(formatQuantity(read.fact.value, read.shown, units, 2));
  if (read.fact.from === "assumed") return SITE_FACTS_WORDS.assumed(formatQuantity(read.fact.value, read.shown, units, 2));
  const text = formatQuantity(read.fact.value, read.shown, units);
  if (read.fact.from === "log") return SITE_FACTS_WORDS.fromLog(text);
  return sameText(text, read.fact.text) ? null : SITE_FACTS_WORDS.reading(text);
}

const tight = (text: string) =>
  text
    .replace(/[\s\u202f]/g, "")
    .replace(/(\.\d*?)0+(?=\D|$)/, "$1")
    .replace(/\.(?=\D|$)/, "");
const sameText = (a: string, b: string) => tight(a) === tight(b);

function quantityOf(key: FactKey, site: SiteFacts): Read | null {
  const as = (fact: Fact<number> | null, shown: Shown): Read | null => (fact === null ? null : { fact, shown });
  switch (key) {
    case "setPressure":
    case "cutIn":
    case "cutOut":
    case "restartPressure":
    case "precharge":
    case "tankRatedPressure":
      return as(site[key], "gaugePressure");
    case "pumpRatedFlow":
      return as(site.pumpRatedFlow, "flow");
    case "motorPower":
      return as(site.motorPower, "power");
    case "tankVolume":
      return as(site.tankVolume, "volume");
    case "sensorToTank":
    case "altitude":
      return as(site[key], "length");
    case "shortCycleLimit":
      return as(site.shortCycleLimit, "time");
    case "limits.driftAtSteadyFlow":
      return as(site.limits.driftAtSteadyFlow, "pressureDifference");
    case "limits.oscillationPeakToPeak":
      return as(site.limits.oscillationPeakToPeak, "pressureDifference");
    case "limits.band":
      return as(site.limits.band, "pressureDifference");
    case "limits.worstDip":
      return as(site.limits.worstDip, "pressureDifference");
    case "limits.sensorToTank":
      return as(site.limits.sensorToTank, "length");
    case "limits.shareWithinBand":
      return as(site.limits.shareWithinBand, "fraction");
    case "pipeInsideDiameter":
      return as(site.pipeInsideDiameter, "bore");
    case "limits.startsPerHour":
    case "name":
    case "pump":
    case "flowMeter":
    case "zone":
      return null;
  }
}
