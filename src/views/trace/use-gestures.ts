import { useEffect } from "react";
import type { Span } from "../../../shared/findings/span";
import type { TraceModel } from "./trace-model";
import { fitted, moved, zoomed } from "./trace-window";

type Place = { readonly axisWidth: number; readonly plotWidth: number; readonly measure: boolean };
type Held = { x: number; readonly began: number };
/** A hand moves by less than this, px, when it means a click. */
const STILL = 4;

/** Wheel, drag, pinch and double click on the strips. Sideways is ours, up and down stays the page's, except for a mouse wheel over the trace. */
export function useGestures(element: HTMLElement | null, model: TraceModel, place: Place): void {
  const { axisWidth, plotWidth, measure } = place;
  useEffect(() => {
    if (element === null || plotWidth <= 0) return;
    const held = new Map<number, Held>();
    let dragged: { readonly window: Span; readonly at: number } | null = null;
    let chosen: number | null = null;

    const toT = (clientX: number) => {
      const { from, to } = model.window.get();
      const x = clientX - element.getBoundingClientRect().left - axisWidth;
      return from + (Math.min(plotWidth, Math.max(0, x)) / plotWidth) * (to - from);
    };

    function wheel(event: WheelEvent): void {
      event.preventDefault();
      const window = model.window.get();
      const unit = event.deltaMode === 1 ? 16 : 1;
      if (Math.abs(event.deltaX) > Math.abs(event.deltaY) || event.shiftKey) {
        const by = ((event.deltaX || event.deltaY) * unit * (window.to - window.from)) / plotWidth;
        model.window.set(moved(window, by, model.extent));
      } else model.window.set(zoomed(window, Math.exp(event.deltaY * unit * 0.0022), toT(event.clientX), model.extent));
      model.cursor.set(toT(event.clientX));
    }

    function down(event: PointerEvent): void {
      if (event.button !== 0) return;
      held.set(event.pointerId, { x: event.clientX, began: event.clientX });
      dragged = { window: model.window.get(), at: toT(event.clientX) };
      // A second finger pinches: it neither begins a measurement nor ends one.
      if (measure && held.size === 1) model.measuring.set({ from: dragged.at, to: null });
      else if (event.shiftKey) chosen = dragged.at;
    }

    function go(event: PointerEvent): void {
      const was = held.get(event.pointerId);
      model.cursor.set(toT(event.clientX));
      if (was === undefined || dragged === null || (held.size === 1 && !grasped(event, was))) return;
      if (held.size === 2) pinch(event, was);
      else if (measure) model.measuring.set({ from: dragged.at, to: toT(event.clientX) });
      else if (chosen === null) drag(event.clientX - was.x);
      was.x = event.clientX;
    }

    /** Taken hold of only once it moves: a click must still reach the band under it. */
    function grasped(event: PointerEvent, was: Held): boolean {
      if (element?.hasPointerCapture(event.pointerId)) return true;
      if (Math.abs(event.clientX - was.began) < STILL) return false;
      element?.setPointerCapture(event.pointerId);
      return true;
    }

    function drag(pixels: number): void {
      const window = model.window.get();
      model.window.set(moved(window, (-pixels * (window.to - window.from)) / plotWidth, model.extent));
    }

    function pinch(event: PointerEvent, was: Held): void {
      const other = [...held].find(([id]) => id !== event.pointerId)?.[1];
      if (other === undefined) return;
      const [before, after] = [Math.abs(was.x - other.x), Math.abs(event.clientX - other.x)];
      if (before < 8 || after < 8) return;
      model.window.set(zoomed(model.window.get(), before / after, toT((event.clientX + other.x) / 2), model.extent));
    }

    function up(event: PointerEvent): void {
      held.delete(event.pointerId);
      const now = toT(event.clientX);
      if (chosen !== null && now !== chosen) {
        model.moveTo(fitted({ from: Math.min(chosen, now), to: Math.max(chosen, now) } as Span, model.extent));
      }
      chosen = null;
      if (event.pointerType !== "mouse") model.cursor.set(now);
    }

    const leave = (event: PointerEvent) => {
      if (event.pointerType === "mouse") model.cursor.set(null);
    };
    const twice = (event: MouseEvent) =>
      model.moveTo(zoomed(model.window.get(), event.shiftKey ? 2.5 : 0.4, toT(event.clientX), model.extent));

    element.addEventListener("wheel", wheel, { passive: false });
    element.addEventListener("pointerdown", down);
    element.addEventListener("pointermove", go);
    element.addEventListener("pointerup", up);
    element.addEventListener("pointercancel", up);
    element.addEventListener("pointerleave", leave);
    element.addEventListener("dblclick", twice);
    return () => {
      element.removeEventListener("wheel", wheel);
      element.removeEventListener("pointerdown", down);
      element.removeEventListener("pointermove", go);
      element.removeEventListener("pointerup", up);
      element.removeEventListener("pointercancel", up);
      element.removeEventListener("pointerleave", leave);
      element.removeEventListener("dblclick", twice);
    };
  }, [element, model, axisWidth, plotWidth, measure]);
}
