import { saveAsFile } from "../../parts/save-as-file";

const HEAD = 40;

/** Saves the picture in a figure as PNG, on paper and with its title. */
export function savePicture(figure: HTMLElement, title: string): void {
  const drawn = figure.querySelector("canvas");
  if (drawn === null) return;
  const style = getComputedStyle(figure);
  const ratio = drawn.width / Math.max(1, drawn.clientWidth);
  const whole = document.createElement("canvas");
  whole.width = drawn.width;
  whole.height = drawn.height + HEAD * ratio;
  const ink = whole.getContext("2d");
  if (ink === null) return;
  ink.fillStyle = style.getPropertyValue("--paper");
  ink.fillRect(0, 0, whole.width, whole.height);
  ink.fillStyle = style.getPropertyValue("--ink");
  ink.font = `${16 * ratio}px ${style.fontFamily}`;
  ink.textBaseline = "middle";
  ink.fillText(title, 12 * ratio, (HEAD / 2) * ratio);
  ink.drawImage(drawn, 0, HEAD * ratio);
  whole.toBlob((blob) => blob !== null && saveAsFile(`${title}.png`, "image/png", blob));
}
