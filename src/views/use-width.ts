import { useEffect, useState } from "react";

/** Width of an element, px, as it changes. */
export function useWidth(): readonly [number, (element: HTMLElement | null) => void] {
  const [width, setWidth] = useState(0);
  const [element, setElement] = useState<HTMLElement | null>(null);
  useEffect(() => {
    if (element === null) return;
    const watch = new ResizeObserver(([entry]) => setWidth(Math.round(entry.contentRect.width)));
    watch.observe(element);
    return () => watch.disconnect();
  }, [element]);
  return [width, setElement];
}
