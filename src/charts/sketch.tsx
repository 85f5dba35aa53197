import { type ComponentProps, useEffect, useRef } from "react";
import type { Colours } from "./palette";
import { useLight } from "./use-light";

/** Draws on a fresh canvas, and again whenever something it follows changes; returns how to stop following. */
export type Draw = (ink: CanvasRenderingContext2D, colours: Colours, ratio: number) => (() => void) | undefined;

type SketchProps = Omit<ComponentProps<"canvas">, "ref" | "width" | "height"> & {
  readonly wide: number;
  readonly tall: number;
  readonly draw: Draw;
};

/** A plain canvas of a size in page pixels, drawn anew when its size, its light or what it shows changes. */
export function Sketch({ wide, tall, draw, style, ...rest }: SketchProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { colours } = useLight();
  useEffect(() => {
    const ink = canvas.current?.getContext("2d");
    if (canvas.current === null || !ink || !(wide > 0 && tall > 0)) return;
    const ratio = devicePixelRatio;
    canvas.current.width = Math.round(wide * ratio);
    canvas.current.height = Math.round(tall * ratio);
    return draw(ink, colours, ratio);
  }, [draw, wide, tall, colours]);
  return <canvas {...rest} ref={canvas} style={{ ...style, width: wide, height: tall }} />;
}
