import type { Analysis } from "../../shared/findings/analysis";
import { breaksLimit } from "../../shared/findings/breaks-limit";
import type { CannotTell } from "../../shared/findings/cannot-tell";
import { FINDING_KINDS, type Finding, type Outcome } from "../../shared/findings/finding";
import { isCannotTell, type Segments } from "../../shared/findings/segment";
import type { Clock } from "../../shared/record/clock";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { sayCannotTell } from "../../shared/wording/cannot-tell";
import { METHODS, sayFinding, WRONG_IF } from "../../shared/wording/finding";
import { sharpenedBy } from "../../shared/wording/sharpened-by";
import { writeSpan } from "./record-part";

/** Findings in the order in which a person should read them: safety, then what breaks a limit, then the rest. */
export function inOrderOfWeight(outcomes: readonly Outcome[], site: SiteFacts): readonly Finding[] {
  const findings = outcomes.flatMap((o) => (o.state === "found" ? [o.finding] : []));
  const weight = (f: Finding) => (f.kind === "over-marked-pressure" ? 0 : breaksLimit(f, site) === true ? 1 : 2);
  return findings.toSorted((a, b) => weight(a) - weight(b) || FINDING_KINDS.indexOf(a.kind) - FINDING_KINDS.indexOf(b.kind));
}

export function writeStory(clock: Clock, { outcomes, site }: Analysis, units: UnitChoice): FindingsDocument["findings"] {
  const words = (finding: Finding) => {
    const { title, text } = sayFinding(finding, units);
    return { title, text };
  };
  return inOrderOfWeight(outcomes, site).map((finding) => ({
    kind: finding.kind,
    ...words(finding),
    places: finding.places.map((place) => writeSpan(clock, place)),
    basis: finding.channels.join(", "),
    method: METHODS[finding.kind],
    wrongIf: WRONG_IF[finding.kind],
    sharpenedBy: sharpenedBy(finding.kind, site),
    overLimit: breaksLimit(finding, site),
  }));
}

/** Everything the log could not show, from segments and detectors. */
export function collectCannotTell(outcomes: readonly Outcome[], segments: Segments): readonly CannotTell[] {
  const ofSegments = Object.values(segments).filter((segment) => isCannotTell(segment));
  const ofOutcomes = outcomes.flatMap((o) => (o.state === "cannot-tell" ? o.because : o.state === "broken" ? [] : o.limits));
  return [...ofOutcomes, ...ofSegments].map((reason) => ownUp(reason, segments));
}

/** Where the program failed at the pump's state, no log is blamed for not showing it. */
export function ownUp(reason: CannotTell, { pump }: Segments): CannotTell {
  const isOurs = reason.id === "no-pump-state" && isCannotTell(pump) && pump.id === "program-failed";
  return isOurs ? { ...reason, id: "program-failed" } : reason;
}

/** Each thing said once, however many detectors met it. */
export function writeCannotTell(all: readonly CannotTell[], units: UnitChoice): FindingsDocument["cannotTell"] {
  const seen = new Set<string>();
  const once = all.filter(({ id, about }) => {
    const isNew = !seen.has(`${id}/${about}`);
    seen.add(`${id}/${about}`);
    return isNew;
  });
  return once.map((c) => ({ id: c.id, about: c.about, text: sayCannotTell(c, units) }));
}
