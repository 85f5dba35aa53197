/** The invented visit that comes with the page: how its log is called, and what can be learned on it. */
export const SAMPLE_LOG = "hillside-before.csv";

export const LESSONS = ["short-cycles", "oscillation", "tank", "precharge", "what-if"] as const;
export type Lesson = (typeof LESSONS)[number];

export const SAMPLE_GUIDE = {
  title: "Learn on this visit: five things to try",
  about:
    "Six houses share a borehole. The visit is invented and its truth is known: the tank has lost its charge, the loop is too hot, and the drive sleeps too soon.",
  lessons: {
    "short-cycles": {
      button: "Show where it starts most",
      says: "The pump overshoots and stops again within half a minute, over and over. Drag, pinch or turn the wheel to see single cycles.",
    },
    oscillation: {
      button: "Show how it swings",
      says: "The draw is steady, the pressure is not. The picture under the trace names the period; the tank's water balance tells that the pump brings the swing, not the draw.",
    },
    tank: {
      button: "See what the tank gives",
      says: "With the pump off, 1 over pressure against the water given is a straight line. Its slope tells the gas that is really there, whatever the label says.",
    },
    precharge: {
      button: "Enter another precharge",
      says: "The site facts say 43 psi. Write 3 psi, what a gauge would show, and see the causes weighed again at once. Undo takes it back.",
    },
    "what-if": {
      button: "Ask what would help",
      says: "Move precharge to 43 psi and the sleep delay to 60 s: the prediction lies over the record, the numbers stand beside it with their spread.",
    },
  } satisfies Record<Lesson, { readonly button: string; readonly says: string }>,
} as const;
