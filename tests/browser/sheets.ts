import type { Locator, Page } from "playwright-core";

/** Opens a sheet by its button, out of the fold of a narrow page where it is there. */
export async function openSheet(page: Page, name: string): Promise<Locator> {
  const button = page.getByRole("button", { name, exact: true });
  const fold = page.getByRole("button", { name: "All sheets", exact: true });
  if ((await button.count()) === 0) await fold.click();
  await button.click();
  const dialog = page.getByRole("dialog");
  await dialog.waitFor();
  return dialog;
}
