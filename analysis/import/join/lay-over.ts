import type { ImportQuestion } from "../../../shared/record/import-question";
import type { Channel } from "../../../shared/record/log-record";
import { timesOf } from "../../../shared/record/sampling";
import type { FilePart } from "../file-part";
import { medianInterval } from "../find-sampling";
import { type ClockOffset, findClockOffset } from "./clock-offset";
import type { PlacedPart } from "./same-log";

/** What was found out about the clocks of two loggers. */
export type ClockCheck = { readonly notes: FilePart["notes"]; readonly question: ImportQuestion | null; readonly shift: number };

const SHIFT = "shift";
const AS_STAMPED = "as-stamped";

/**
 * Compares the clock of a second logger with that of the first by what both saw. A difference beyond doubt of its interval is proposed and
 * asked, never applied by itself.
 * @param answer the person's answer to the question, if any
 */
export function checkClocks(first: PlacedPart, second: PlacedPart, answer: string | undefined): ClockCheck {
  const pair = sharedChannels(first, second);
  const found = pair === null ? null : offsetOf(...pair);
  const names = `${first.file.name} and ${second.file.name}`;
  if (found === null) {
    const text = `The clocks of ${names} could not be compared: no pattern that both show clearly. They are laid over each other as stamped.`;
    return { notes: [{ kind: "clocks-not-compared", text }], question: null, shift: 0 };
  }
  const said = `${signed(found.offset)} s (${signed(found.low)} to ${signed(found.high)} s, correlation ${found.correlation.toFixed(2)})`;
  const step = Math.max(intervalOf(first), intervalOf(second));
  if (Math.abs(found.offset) <= Math.max(2 * step, (found.high - found.low) / 2)) {
    return { notes: [{ kind: "clocks-agree", text: `The clocks of ${names} agree: ${said}.` }], question: null, shift: 0 };
  }
  const question: ImportQuestion = {
    id: "clock",
    text: `What ${second.file.name} and ${first.file.name} both saw fits together when ${second.file.name} is shifted by ${said}. Shift it?`,
    options: [AS_STAMPED, SHIFT],
    meaning: ["both clocks are right as they are", `${signed(found.offset)} s are added to every instant of ${second.file.name}`],
    assumed: answer === SHIFT ? SHIFT : AS_STAMPED,
  };
  return {
    notes: [{ kind: "clock-offset", text: `${second.file.name} against ${first.file.name}: ${said}.` }],
    question,
    shift: answer === SHIFT ? found.offset : 0,
  };
}

const signed = (s: number) => `${s < 0 ? "-" : "+"}${Math.abs(s) < 10 ? Math.abs(s).toFixed(1) : Math.round(Math.abs(s))}`;

const intervalOf = (part: PlacedPart) => medianInterval(timesOf(part.origins[0].sampling)) || 1;

/** Two channels that see the same events: pressure twice, else flow twice. */
function sharedChannels(first: PlacedPart, second: PlacedPart): [Channel, Channel] | null {
  for (const role of ["pressure", "flow", "speed", "running", "current", "power"]) {
    const [a, b] = [first, second].map((part) => part.channels.find((channel) => channel.role === role));
    if (a !== undefined && b !== undefined) return [a, b];
  }
  return null;
}

function offsetOf(a: Channel, b: Channel): ClockOffset | null {
  const [x, y] = [a, b].map((channel) => ({ times: timesOf(channel.sampling), values: channel.values }));
  return findClockOffset(x, y, Math.max(medianInterval(x.times), medianInterval(y.times)));
}
