import { useEffect } from "react";

/**
 * Says when a file may come soon, so that what it will need can be loaded before it is there: something is dragged over the page, files are
 * asked for, or the page came out of the browser's own store, where loading the rest costs no network.
 */
export function useFilesComing(onComing: () => void): void {
  useEffect(() => {
    const listening = new AbortController();
    const { signal } = listening;
    const come = () => {
      listening.abort();
      onComing();
    };
    document.addEventListener("dragenter", come, { signal });
    document.addEventListener("click", ({ target }) => target instanceof HTMLInputElement && target.type === "file" && come(), { signal });
    // Without a secure context there is no such store.
    const { serviceWorker } = navigator as Partial<Navigator>;
    const isStored = serviceWorker !== undefined && serviceWorker.controller !== null;
    if (isStored) void serviceWorker.ready.then(() => signal.aborted || come());
    return () => listening.abort();
  }, [onComing]);
}
