import { useEffect, useRef } from "react";

/** Tells the page's styles how much of the height in sight the pinned trace takes ("--pinned"), so that nothing is scrolled to under it. */
export function usePinnedHeight(isPinned: boolean) {
  const element = useRef<HTMLElement>(null);
  useEffect(() => {
    if (element.current === null) return;
    const page = document.documentElement.style;
    const watch = new ResizeObserver(([entry]) =>
      page.setProperty("--pinned", isPinned ? `${Math.ceil(entry.target.clientHeight)}px` : "0px"),
    );
    watch.observe(element.current);
    return () => {
      watch.disconnect();
      page.removeProperty("--pinned");
    };
  }, [isPinned]);
  return element;
}
