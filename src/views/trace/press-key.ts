import type { TraceModel } from "./trace-model";
import { moved, wholeWindow, zoomed } from "./trace-window";

const CLOSER = 0.6;
const WIDER = 1 / CLOSER;

/** What a key does on the trace; false where it does nothing. */
export function pressKey(key: string, shift: boolean, model: TraceModel): boolean {
  const window = model.window.get();
  const width = window.to - window.from;
  const middle = model.cursor.get() ?? (window.from + window.to) / 2;
  const move = (by: number) => model.window.set(moved(window, by, model.extent));
  const zoom = (factor: number) => model.moveTo(zoomed(window, factor, middle, model.extent));
  const readAt = (t: number) => model.cursor.set(Math.min(window.to, Math.max(window.from, t)));
  switch (shift && key.startsWith("Arrow") ? `Shift ${key}` : key) {
    case "Shift ArrowLeft":
      readAt(middle - width / 200);
      return true;
    case "Shift ArrowRight":
      readAt(middle + width / 200);
      return true;
    case "ArrowLeft":
      move(-width / 10);
      return true;
    case "ArrowRight":
      move(width / 10);
      return true;
    case "PageUp":
      move(-width * 0.9);
      return true;
    case "PageDown":
      move(width * 0.9);
      return true;
    case "ArrowUp":
    case "+":
    case "=":
      zoom(CLOSER);
      return true;
    case "ArrowDown":
    case "-":
      zoom(WIDER);
      return true;
    case "Home":
      model.moveTo(moved(window, -model.duration, model.extent));
      return true;
    case "End":
      model.moveTo(moved(window, model.duration, model.extent));
      return true;
    case "0":
      model.moveTo(wholeWindow(model.duration));
      return true;
    case "m":
    case "M":
      setMark(model, middle);
      return true;
    case "Escape":
      model.measuring.set(null);
      model.cursor.set(null);
      return true;
    default:
      return false;
  }
}

/** The first press sets one end of a measurement, the next the other. */
function setMark(model: TraceModel, at: number): void {
  const measuring = model.measuring.get();
  model.measuring.set(measuring === null || measuring.to !== null ? { from: at, to: null } : { from: measuring.from, to: at });
}
