/** What stands on and around the trace. */
export const TRACE_WORDS = {
  name: "Trace",
  keys: "Trace of all channels. Arrow keys move and zoom, Shift with arrows moves the reading line, M measures, 0 shows the whole record, ? lists all keys.",
  predicted: "predicted with the change",
  whole: "Whole record",
  closer: "Closer",
  wider: "Wider",
  larger: "Larger",
  smaller: "Smaller",
  measure: "Measure",
  fitHeights: "Fit heights",
  drawn: "What is drawn",
  previous: "Previous",
  next: "Next",
  anyPlace: "any place",
  stepThrough: "Which places to step through",
  atLast: "That was the last one.",
  atFirst: "That was the first one.",
  goTo: "Go to",
  goToHour: "Go to hour",
  howToMeasure: "Drag over the trace to measure between two points, or press M twice.",
  firstPointSet: "First point set. Set the second.",
  starts: (count: number) => `${count} ${count === 1 ? "start" : "starts"} of the pump`,
  perMinute: (change: string, slope: string) => `${change}, ${slope} a minute`,
  loggersTime: "Times are the logger's own local time.",
  outOfPicture: (mark: string) => `${mark}: out of the picture`,
  noValue: "no value",
  range: (low: string, high: string) => `${low} to ${high}`,
  strip: (title: string, channels: readonly string[], low: string, high: string) =>
    `${title} of ${channels.join(" and ")} against time, from ${low} to ${high}`,
  bands: (lanes: readonly { readonly title: string; readonly count: number }[]) =>
    `Bands: ${lanes.map(({ title, count }) => `${title}, ${count} places`).join("; ")}`,
  place: (what: string, from: string, length: string, note: string | null) =>
    `${what}: ${from}, for ${length}${note === null || note === "" ? "" : `. ${note}`}`,
} as const;

/** What the keys do on the trace; the same list for everybody who asks. */
export const TRACE_KEYS: readonly (readonly [string, string])[] = [
  ["Left, right", "move by a tenth"],
  ["Page up, page down", "move by a whole window"],
  ["Home, end", "beginning and end of the record"],
  ["Up or +, down or \u2212", "closer, wider"],
  ["0", "the whole record"],
  ["Shift with left, right", "move the reading line"],
  ["M, M", "measure from here, to here"],
  ["Escape", "put reading line and measurement away"],
  ["?", "this list"],
];

export const KEYS_WORDS = {
  title: "Keys on the trace",
  hands:
    "The wheel or two fingers zoom, dragging moves, Shift with dragging goes into a stretch, a double click goes closer. The keys work once the trace has the focus: press Tab until it is framed.",
} as const;
