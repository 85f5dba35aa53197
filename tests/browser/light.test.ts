import { afterAll, beforeAll, expect, test } from "vitest";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("a device that asks for more contrast gets black on white, until the person chooses another light", async () => {
  const { page } = await opened.fresh({ contrast: "more", colorScheme: "light" });
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  await expect.poll(paper).toBe("rgb(255, 255, 255)");
  await openSheet(page, "How it is shown");
  await page.getByRole("radio", { name: "Paper", exact: true }).check();
  await expect.poll(paper).toBe("rgb(246, 247, 243)");
});

test("where the system gives the colours, pictures are drawn in them, and what is lit is framed", { timeout: 120_000 }, async () => {
  const { page, errors } = await opened.fresh({ forcedColors: "active", colorScheme: "dark" });
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  const look = () => {
    const probe = document.body.appendChild(document.createElement("i"));
    probe.style.color = "CanvasText";
    const text = (getComputedStyle(probe).color.match(/\d+/g) ?? []).map(Number);
    const canvas = document.querySelector<HTMLCanvasElement>(".overview canvas");
    const pixels = canvas?.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? new Uint8ClampedArray();
    let drawn = 0;
    let inText = 0;
    for (let i = 0; i < pixels.length; i += 4) {
      if (pixels[i + 3] < 255) continue;
      drawn++;
      if (text.every((part, k) => pixels[i + k] === part)) inText++;
    }
    probe.remove();
    return { drawn, inText };
  };
  await expect.poll(async () => (await page.evaluate(look)).drawn).toBeGreaterThan(500);
  const seen = await page.evaluate(look);
  expect(seen.inText).toBe(seen.drawn);
  await page
    .getByRole("button", { name: /^Show on trace/ })
    .first()
    .click();
  const lit = page.locator('.finding[data-lit="true"]');
  expect(await lit.evaluate((element) => getComputedStyle(element).outlineStyle)).toBe("solid");
  expect(await serious(page)).toEqual([]);
  expect(errors).toEqual([]);
});
