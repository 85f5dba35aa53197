/** What stands on and around the trace. */
export const TRACE_WORDS = {
  name: "Trace",
  tools: "Ways to move over the trace",
  keys: "Trace of all channels. Arrow keys move and zoom, Shift with arrows moves the reading line, M measures, N and P step from place to place, G goes to a time, 0 shows the whole record, ? lists all keys.",
  predicted: "predicted with the change",
  whole: "Whole record",
  closer: "Closer",
  wider: "Wider",
  larger: "Larger",
  smaller: "Smaller",
  measure: "Measure",
  fitHeights: "Fit heights",
  drawn: "What is drawn",
  previous: "Place before",
  next: "Place after",
  anyPlace: "of any band",
  stepThrough: "Which places to step through",
  atLast: "That was the last one.",
  atFirst: "That was the first one.",
  goTo: "Go to",
  goToTime: "Go to a time",
  goToDay: "Day to go to",
  timeExample: "15:30",
  timeWrong: "Write a time as 15:30.",
  goToHour: "Go to hour",
  howToMeasure: "Drag over the trace to measure between two points, or press M twice.",
  firstPointSet: "First point set. Set the second.",
  cyclesNotKnown: "cycles not known: the log does not show when the pump ran",
  cycles: (count: number) => `${count} ${count === 1 ? "cycle" : "cycles"} of the pump, counted by its starts`,
  perMinute: (change: string, slope: string) => `${change}, ${slope} a minute`,
  closest: (interval: string) => `The log reads every ${interval}: closer than this there is nothing more to see.`,
  loggersTime: "Times are the logger's own local time.",
  outOfPicture: (mark: string) => `${mark}: out of the picture`,
  noValue: "no value",
  strip: (title: string, channels: readonly string[], low: string, high: string) =>
    `${title} of ${channels.join(" and ")} against time, from ${low} to ${high}`,
  bands: (lanes: readonly { readonly title: string; readonly count: number }[]) =>
    `Bands: ${lanes.map(({ title, count }) => `${title}, ${count} places`).join("; ")}`,
  place: (what: string, from: string, length: string, note: string | null) =>
    `${what}: ${from}, for ${length}${note === null ? "" : `. ${note}`}`,
} as const;

/** What the keys do on the trace; the same list for everybody who asks. */
export const TRACE_KEYS: readonly (readonly [string, string])[] = [
  ["Left, right", "move by a tenth"],
  ["Page up, page down", "move by a whole window"],
  ["Home, end", "beginning and end of the record"],
  ["Up or +, down or \u2212", "closer, wider"],
  ["0", "the whole record"],
  ["Shift with left, right", "move the reading line"],
  ["N, P", "to the next place of a band, to the one before"],
  ["G", "go to a time"],
  ["M, M", "measure from here, to here"],
  ["Escape", "put reading line and measurement away"],
  ["?", "this list"],
];

export const KEYS_WORDS = {
  title: "Keys on the trace",
  elsewhere:
    "Anywhere on the page, Control or Command with Z takes back the fact, tick or note entered last; with Shift as well it is put in again.",
  hands:
    "The wheel or two fingers zoom, dragging moves, Shift with dragging goes into a stretch, a double click goes closer. The keys work once the trace has the focus: press Tab until it is framed.",
} as const;
