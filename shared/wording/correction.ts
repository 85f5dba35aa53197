import { CHANNEL_ROLES } from "../record/channel-role";
import { sayRole } from "./channel-role";
import { questionKind, sayOption } from "./question-option";

type Correction = {
  readonly answers: Readonly<Record<string, string>>;
  readonly columns: readonly { readonly heading: string; readonly role: string; readonly unit: string | null }[];
};

const KINDS: ReadonlyMap<string, string> = new Map([
  ["date-order", "dates are"],
  ["time-zone", "time zone"],
  ["start-time", "starts at"],
  ["interval", "one row every"],
  ["decimal", "decimals:"],
  ["range", "range"],
  ["k-factor", "pulses"],
  ["unit", "unit"],
  ["reference", "pressure is"],
  ["sentinel", "missing value"],
  ["column-role", "stands for"],
  ["clock", "clock"],
]);

/** What was corrected, one thing a line: "Ch1 is pressure in bar", "dates are day, month, year". */
export function sayCorrection({ answers, columns }: Correction): readonly string[] {
  const ofColumns = columns.map(({ heading, role, unit }) => `${heading} is ${sayKnownRole(role)}${unit === null ? "" : ` in ${unit}`}`);
  const ofAnswers = Object.entries(answers).map(([id, answer]) => {
    const kind = questionKind(id);
    const column = id.slice(kind.length + 1);
    // when a log began is true of that log alone: no date stands among them
    return `${column === "" ? "" : `${column}: `}${KINDS.get(kind) ?? kind} ${sayOption(id, answer, null)}`;
  });
  return [...ofColumns, ...ofAnswers];
}

/** A role out of an older store may not be known any more. */
function sayKnownRole(role: string): string {
  const known = CHANNEL_ROLES.find((one) => one === role);
  return known === undefined ? role : sayRole(known);
}
