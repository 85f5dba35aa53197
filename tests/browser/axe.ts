import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

type AxeResult = {
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
};
declare const axe: { run(context: Document, options: object): Promise<AxeResult> };

/** What the checker finds serious or critical, against WCAG 2.2 A and AA and its best practices. */
export async function serious(page: Page, rules: readonly string[] | null = null): Promise<string[]> {
  await page.evaluate(AXE);
  const result = await page.evaluate(
    (only) =>
      axe.run(document, {
        runOnly: only ?? ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        resultTypes: ["violations"],
      }),
    rules,
  );
  return result.violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, nodes }) => nodes.slice(0, 3).map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary.slice(0, 200)}`));
}
