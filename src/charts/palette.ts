import type { ChannelQuantity } from "../../shared/record/channel-role";

/** Colour tokens of src/look/tokens.css that a picture may use. */
export const COLOUR_TOKENS = [
  "paper",
  "paper-raised",
  "ink",
  "ink-soft",
  "rule",
  "edge",
  "highlight",
  "pressure",
  "flow",
  "speed",
  "electric",
  "other",
  "limit",
] as const;
export type ColourToken = (typeof COLOUR_TOKENS)[number];
export type Colours = Readonly<Record<ColourToken, string>>;

/** The same quantity has the same hue everywhere. */
export function hueOf(quantity: ChannelQuantity): ColourToken {
  switch (quantity) {
    case "gaugePressure":
    case "absolutePressure":
      return "pressure";
    case "flow":
    case "volume":
      return "flow";
    case "frequency":
    case "rotation":
    case "fraction":
    case "state":
      return "speed";
    case "electricCurrent":
    case "power":
    case "voltage":
      return "electric";
    default:
      return "other";
  }
}

/** Channels of one quantity are told apart by dash: the first is drawn through. Lengths in pixels. */
export const DASHES: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [9, 3, 2, 3]];
export const dashOf = (nth: number): readonly number[] => DASHES[nth % DASHES.length];

/**
 * The colours as the page shows them now: they follow the light that the person chose. A canvas knows nothing of the system's own
 * colours ("CanvasText"), so each token is read as the page works it out.
 */
export function readColours(page: HTMLElement): Colours {
  const probe = page.appendChild(document.createElement("i"));
  probe.style.cssText = "display: none; forced-color-adjust: none";
  const read = (token: ColourToken) => {
    probe.style.color = `var(--${token}, #000)`;
    return getComputedStyle(probe).color;
  };
  const entries = COLOUR_TOKENS.map((token) => [token, read(token)] as const);
  probe.remove();
  return Object.fromEntries(entries) as Record<ColourToken, string>;
}
