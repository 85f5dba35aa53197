import { useSyncExternalStore } from "react";
import { type Colours, readColours } from "./palette";

/** The light the page is shown in now. */
export type ShownLight = { readonly name: string; readonly colours: Colours };

let latest: ShownLight | null = null;

/** The light and its colours; whoever draws with them draws anew when it changes. */
export function useLight(): ShownLight {
  return useSyncExternalStore(watchLight, shownLight, shownLight);
}

const DARK = "(prefers-color-scheme: dark)";

function shownLight(): ShownLight {
  const chosen = document.documentElement.dataset.light ?? "device";
  const name = matchMedia(FORCED).matches ? forcedLight() : chosen === "device" ? lightOfDevice() : chosen;
  if (latest?.name !== name) latest = { name, colours: readColours(document.documentElement) };
  return latest;
}

/** The person gave the system colours of their own, which stand above ours. */
const FORCED = "(forced-colors: active)";
const forcedLight = (): string => (matchMedia(DARK).matches ? "forced dark" : "forced");

const CONTRAST = "(prefers-contrast: more)";

/** As src/look/tokens.css decides it. */
function lightOfDevice(): string {
  if (matchMedia(DARK).matches) return "night";
  return matchMedia(CONTRAST).matches ? "sunlight" : "paper";
}

function watchLight(changed: () => void): () => void {
  const watch = new MutationObserver(changed);
  watch.observe(document.documentElement, { attributes: true, attributeFilter: ["data-light"] });
  const device = [DARK, CONTRAST, FORCED].map((query) => matchMedia(query));
  for (const query of device) query.addEventListener("change", changed);
  return () => {
    watch.disconnect();
    for (const query of device) query.removeEventListener("change", changed);
  };
}
