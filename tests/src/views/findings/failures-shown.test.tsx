import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { US_UNITS } from "../../../../shared/units/unit-choice";
import { Findings } from "../../../../src/views/findings/findings";
import type { StoryProps } from "../../../../src/views/view-props";
import { analysisOf } from "../../../builders/findings";

const shown = (texts: readonly string[]): string => {
  const visit = {
    analysis: analysisOf([]),
    outline: { clock: { kind: "elapsed" } },
    document: { failures: texts.map((text, i) => ({ part: "rule", id: `rule-${i}`, text })) },
  };
  const props = { visit, state: { selection: null }, preferences: { units: US_UNITS }, dispatch: () => {} };
  return renderToStaticMarkup(<Findings {...(props as unknown as StoryProps)} />);
};

test("the page shows each part that failed, as text", () => {
  const html = shown(["The step failed (<b>x</b>).", "Another failed."]);
  expect(html.match(/finding-broken/g)).toHaveLength(2);
  expect(html).toContain("The step failed (&lt;b&gt;x&lt;/b&gt;).");
});
test("and nothing of the kind where all is sound", () => expect(shown([])).not.toContain("finding-broken"));
