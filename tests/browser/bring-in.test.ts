import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { holdAnswers } from "./slowed";
import { bringIn, plainLog, textFile } from "./visits";
import { story, untilRead } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

describe("bringing in a log", () => {
  test("a picked file shows its trace, its columns and its rows", async () => {
    const { page, errors } = await opened.fresh();
    await bringIn(page, plainLog("hill-farm.csv"));
    await story(page).waitFor();
    const sheet = await openSheet(page, "How it was read");
    await expect.poll(() => sheet.getByRole("combobox", { name: "What P1 [psi] stands for" }).inputValue()).toBe("pressure");
    expect(await sheet.getByText("May 3, 2024, 08:00:00").count()).toBe(1);
    expect(errors).toEqual([]);
  });

  test("a log without a time is read row by row, and its interval is asked", async () => {
    const { page } = await opened.fresh();
    const rows = Array.from({ length: 300 }, (_, i) => `${50 + (i % 7)}.5,${i % 3}`);
    await bringIn(page, textFile("no-time.csv", ["P1 [psi],Flow [gpm]", ...rows].join("\n")));
    await page.getByRole("button", { name: "Answer them" }).click();
    const sheet = page.getByRole("dialog");
    await sheet.getByRole("radio", { name: "2 s" }).check();
    await sheet.getByText("00:09:58").first().waitFor();
  });

  test("a log whose time nobody understands is refused with a way on: its interval", async () => {
    const { page } = await opened.fresh();
    const rows = Array.from({ length: 300 }, (_, i) => `${50 + (i % 7)}.5,${12 - (i % 5)}.5`);
    await bringIn(page, textFile("odd-time.csv", ["P1 [psi],Time", ...rows].join("\n")));
    await page.getByRole("heading", { name: "This cannot be read as a log" }).waitFor();
    await page.getByRole("textbox", { name: "How often was a row written?" }).fill("2 s");
    await page.keyboard.press("Enter");
    await story(page).waitFor();
  });

  test("the zone of the clock is changed in the review, and the instants follow", async () => {
    const { page } = await opened.fresh();
    await bringIn(page, plainLog("hill-farm.csv"));
    await story(page).waitFor();
    const sheet = await openSheet(page, "How it was read");
    const zone = sheet.getByRole("combobox", { name: "Zone of the logger's clock" });
    await zone.fill("Nowhere/Land");
    await sheet.getByText("No zone has this name.").waitFor();
    await zone.fill("Europe/Lisbon");
    await zone.press("Enter");
    await sheet.getByText("time in Europe/Lisbon").waitFor();
  });

  test("a question is answered in the review, and the reading follows", async () => {
    const { page } = await opened.fresh();
    const rows = Array.from(
      { length: 300 },
      (_, i) =>
        `03/04/2024 08:${String(Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")};${(4 + (i % 16)).toFixed(2)}`,
    );
    await bringIn(page, textFile("asks.csv", ["Time;Ch1", ...rows].join("\n")));
    await page.getByRole("button", { name: "Answer them" }).click();
    const sheet = page.getByRole("dialog");
    await sheet.getByRole("radio", { name: "pressure" }).first().check();
    await expect.poll(() => sheet.getByRole("combobox", { name: "What Ch1 stands for" }).inputValue()).toBe("pressure");
  });

  test("which of two unknown words says that the pump runs is asked and answered by hand, and the runs follow", async () => {
    const { page, errors } = await opened.fresh({ viewport: { width: 360, height: 740 } });
    const row = (i: number) => {
      const stamp = `2024-05-03 08:${String(Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")}`;
      return `${stamp},${(50 + (i % 60) / 10).toFixed(1)},${i % 60 < 25 ? "M" : "A"}`;
    };
    await bringIn(page, textFile("two-words.csv", ["Time,P1 [psi],Pompe", ...Array.from({ length: 1200 }, (_, i) => row(i))].join("\n")));
    const answerThem = page.getByRole("button", { name: "Answer them" });
    await page.getByText("Which of the two says that it runs?").waitFor();
    const onPompe = page.locator(".finding", { hasText: "Rests on Pompe" });
    expect(await onPompe.count()).toBe(0);
    await answerThem.click();
    const question = page.getByRole("group", { name: /Which of the two says that it runs/ });
    await question.getByRole("radio", { name: /it runs while "M" stands there/ }).check();
    await closeSheet(page);
    await expect.poll(() => onPompe.count()).toBeGreaterThan(0);
    const sheet = await openSheet(page, "How it was read");
    await sheet.getByText('as you chose: "M" is running').waitFor();
    expect(errors).toEqual([]);
  });

  test("reading can be stopped, and the page is as it was", async () => {
    const { page } = await opened.fresh();
    const answers = await holdAnswers(page);
    await answers.hold();
    await bringIn(page, plainLog("stopped.csv"));
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await page.getByRole("heading", { name: "Bring in the log of a pumped water system" }).waitFor();
    // What the worker had still to say is not heard any more, and the next log is read as ever.
    await answers.letGo();
    expect(await page.locator(".masthead-what").textContent()).toBe("");
    await bringIn(page, plainLog("next.csv"));
    await untilRead(page, "next.csv");
  });
});

test("where one of several files is no log, the others are read without it, one after the other", async () => {
  const { page, errors } = await opened.fresh();
  await bringIn(
    page,
    plainLog("good.csv"),
    textFile("letter.csv", "Dear all,\nplease find attached the readings\n"),
    textFile("blank.csv", ""),
  );
  await page.getByRole("heading", { name: "This cannot be read as a log" }).waitFor();
  await page.getByRole("button", { name: "Read the others without letter.csv" }).click();
  await page.getByRole("button", { name: "Read the others without blank.csv" }).click();
  await story(page).waitFor();
  expect(await page.locator(".masthead-what").textContent()).toBe("good.csv");
  expect(errors).toEqual([]);
});
