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
  const name = chosen === "device" ? (matchMedia(DARK).matches ? "night" : "paper") : chosen;
  if (latest?.name !== name) latest = { name, colours: readColours(document.documentElement) };
  return latest;
}

function watchLight(changed: () => void): () => void {
  const watch = new MutationObserver(changed);
  watch.observe(document.documentElement, { attributes: true, attributeFilter: ["data-light"] });
  const device = matchMedia(DARK);
  device.addEventListener("change", changed);
  return () => {
    watch.disconnect();
    device.removeEventListener("change", changed);
  };
}
