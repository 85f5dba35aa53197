import { ACCEPTANCE_IDS, type AcceptanceId } from "../../../shared/findings/acceptance";
import { ADVICE_IDS, type AdviceId } from "../../../shared/findings/advice";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { doneSteps } from "../../../shared/findings/checklist";
import { formatQuantity } from "../../../shared/units/format-quantity";
import { MEASURES } from "../../../shared/wording/comparison";
import {
  ADVICE_FOR_CUSTOMER,
  BETTER_NOT_SHOWN,
  CAUSE_FOR_CUSTOMER,
  CHECKS_FOR_CUSTOMER,
  CUSTOMER_CAUTIONS,
  FOR_CUSTOMER,
  MEASURES_FOR_CUSTOMER,
  NOTHING_FOUND,
  NOTHING_PROPOSED,
  OVER_PRESSURE_CAUTION,
  REASON_OPEN,
  sayNotKept,
  sayRecorded,
  VERDICT_FOR_CUSTOMER,
} from "../../../shared/wording/customer";
import { IN_REPORT } from "../../../shared/wording/report";
import { headRow, type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";
import { timeLabels } from "../time-labels";

const words = IN_REPORT.customer;

/** Below this the cause is not named to the customer: it would be a guess. */
const NAMED_FROM = 0.5;
const isCause = (id: string): id is CauseId => CAUSE_IDS.some((known) => known === id);
const isAdvice = (id: string): id is AdviceId => ADVICE_IDS.some((known) => known === id);

/** One page in plain words: what was found, why, what was done or is proposed, what to expect, what to look out for. */
export function customerSection(input: ReportInput): Markup {
  const { document, units } = input;
  const over = document.findings.some((f) => f.kind === "over-marked-pressure");
  return markup`<section class="alone"><h2>${words.title}</h2>
<p>${sayRecorded(timeLabels(document, units.locale).days)}</p>
<h3>${words.found}</h3>
${found(input)}
<h3>${words.why}</h3><p>${whySentence(input)}</p>
${steps(input)}
${input.comparison === null ? figures(input) : didItHelp(input, input.comparison)}
<h3>${words.note}</h3><ul class="cautions plain-cautions">${[...(over ? [OVER_PRESSURE_CAUTION] : []), ...CUSTOMER_CAUTIONS].map((text) => markup`<li>${text}</li>`)}</ul></section>`;
}

/** Whether nothing in the record breaks a limit, by the findings and by the checks: only then may it be said that all is well. */
const keepsAll = ({ findings, acceptance }: ReportInput["document"]): boolean =>
  !findings.some(({ overLimit }) => overLimit === true) && !acceptance.some(({ state }) => state === "not-met");

/** And only where nothing became worse, or is not yet shown to be well, may it be said that nothing has to be done. */
const isAllWell = ({ document, comparison }: ReportInput): boolean =>
  keepsAll(document) && !["worse", "better-but-not-met"].includes(comparison?.comparison.overall ?? "met");

function whySentence(input: ReportInput): string {
  const [cause] = input.document.causes;
  if (cause === undefined || cause.confidence < NAMED_FROM || !isCause(cause.id)) return REASON_OPEN;
  if (cause.id === "healthy" && !isAllWell(input)) return REASON_OPEN;
  return words.mostLikely(CAUSE_FOR_CUSTOMER[cause.id]);
}

/**
 * What breaks a limit, in plain words. Findings and checks judge by themselves, so that a check may not be kept where no finding breaks a limit:
 * it is named here, unless the figures below show it.
 */
function found({ document, comparison }: ReportInput): Markup {
  const broken = document.findings.filter(({ overLimit }) => overLimit === true);
  const said = broken.flatMap(({ kind }) => FOR_CUSTOMER[kind] ?? []);
  const notKept = document.acceptance.flatMap(({ id, name, state }) => (state === "not-met" ? [plainName(id, name)] : []));
  const isShownBelow = comparison === null && said.length > 0;
  const all = [...said, ...(notKept.length === 0 || isShownBelow ? [] : [sayNotKept(notKept)])];
  // A finding without plain words that no check names: better in the trade's words than not at all.
  if (all.length === 0 && broken.length > 0) return list(broken.map(({ title }) => `${title}.`));
  return all.length === 0 ? markup`<p>${NOTHING_FOUND}</p>` : list(all);
}

const list = (items: readonly string[]): Markup => markup`<ul>${items.map((item) => markup`<li>${item}</li>`)}</ul>`;

/** Done, proposed, and what will be noticed of it. */
function steps(input: ReportInput): Markup {
  const { document, checklist, comparison } = input;
  const done = doneSteps(checklist);
  const proposed = document.advice.flatMap(({ id }) => (isAdvice(id) && !done.includes(id) ? [id] : []));
  // That no work is needed is said alone, and only where nothing is outside its limit.
  const open = proposed.length === 1 && isAllWell(input) ? proposed : proposed.filter((id) => id !== "nothing-to-change");
  const isWorse = comparison?.comparison.overall === "worse";
  const none = NOTHING_PROPOSED[isWorse ? "worse" : keepsAll(document) || done.length > 0 ? "kept" : "notKept"];
  const say = (ids: readonly AdviceId[]) => ids.map((id) => ADVICE_FOR_CUSTOMER[id].does);
  const expected = [...new Set([...done, ...open].flatMap((id) => ADVICE_FOR_CUSTOMER[id].expect ?? []))];
  return markup`${done.length === 0 ? null : markup`<h3>${words.done}</h3>${list(say(done))}`}
<h3>${words.proposed}</h3>${open.length === 0 ? markup`<p>${none}</p>` : list(say(open))}
${expected.length === 0 ? null : markup`<h3>${words.expect}</h3>${list(expected)}`}`;
}

const isCheck = (id: string): id is AcceptanceId => ACCEPTANCE_IDS.some((known) => known === id);
const plainName = (id: string, name: string): string => (isCheck(id) ? CHECKS_FOR_CUSTOMER[id].name : name);

/** The checks that can be felt at the tap or heard at the pump, and any that is not kept, against their limits. */
function figures({ document }: ReportInput): Markup | null {
  const lines = document.acceptance.filter(
    ({ id, limit, state }) => limit !== null && (state === "not-met" || (isCheck(id) && CHECKS_FOR_CUSTOMER[id].canBeFelt)),
  );
  if (lines.length === 0) return null;
  return markup`<h3>${words.figures}</h3><table class="plain checks">${headRow(words.figureHeads)}<tbody>
${lines.map((line) => markup`<tr><th scope="row">${plainName(line.id, line.name)}</th><td>${line.value}</td><td>${(line.limit ?? "").replace(/ \([^()]*\)$/, "")}</td><td class="verdict">${words.states[line.state]}</td></tr>`)}</tbody></table>`;
}

function didItHelp({ document, units }: ReportInput, { comparison }: NonNullable<ReportInput["comparison"]>): Markup {
  const rows = comparison.measures.flatMap(({ id, before, after }) =>
    before === null || after === null ? [] : [{ name: MEASURES_FOR_CUSTOMER[id], shown: MEASURES[id].shown, before, after }],
  );
  const write = (value: number, shown: (typeof rows)[number]["shown"]) => formatQuantity(value, shown, units, 2);
  return markup`<h3>${words.didItHelp}</h3><p>${comparison.overall === "better-but-not-met" && keepsAll(document) ? BETTER_NOT_SHOWN : VERDICT_FOR_CUSTOMER[comparison.overall]}</p>
${rows.length === 0 ? null : markup`<table class="plain">${headRow(words.helpHeads)}<tbody>${rows.map(({ name, shown, before, after }) => markup`<tr><th scope="row">${name}</th><td>${write(before.value, shown)}</td><td>${write(after.value, shown)}</td></tr>`)}</tbody></table>`}`;
}
