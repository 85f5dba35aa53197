import type { Locator, Page } from "playwright-core";

/** Opens a sheet by its button, out of the fold of a narrow page where it is there. */
export async function openSheet(page: Page, name: string): Promise<Locator> {
  const button = page.getByRole("button", { name, exact: true });
  const fold = page.getByRole("button", { name: "All sheets", exact: true });
  await button.or(fold).first().waitFor();
  if (!(await button.isVisible())) await fold.click();
  await button.click();
  const dialog = page.getByRole("dialog");
  await dialog.waitFor();
  return dialog;
}

/** Closes the sheet as a person does, and waits until it is gone: its button, and what lies under it, can be reached again. */
export async function closeSheet(page: Page): Promise<void> {
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
}
