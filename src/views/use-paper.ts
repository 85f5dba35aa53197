import { useEffect } from "react";

/** What fits between the margins of the smaller of the usual papers, px. */
const PAPER = 690;

/** Before printing, tells the styles how wide the record stands on the screen and by how much it must shrink to fit on paper. */
export function usePaper(): void {
  useEffect(() => {
    const measure = () => {
      const parts = [...document.querySelectorAll(".trace, .closer-looks")];
      const width = parts.reduce((most, part) => Math.max(most, part.clientWidth), 0);
      if (width === 0) return;
      document.documentElement.style.setProperty("--record-width", `${width}px`);
      document.documentElement.style.setProperty("--record-zoom", String(Math.min(1, PAPER / width)));
    };
    addEventListener("beforeprint", measure);
    return () => removeEventListener("beforeprint", measure);
  }, []);
}
