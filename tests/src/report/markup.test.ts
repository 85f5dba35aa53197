import { expect, test } from "vitest";
import { markup } from "../../../src/report/markup";

test("what comes from a file is text, never markup", () => {
  expect(markup`<p title="${'"><script>'}">${"<b>&'"}</p>`.html).toBe('<p title="&quot;&gt;&lt;script&gt;">&lt;b&gt;&amp;&#39;</p>');
});
test("markup inside markup stays, lists are joined, null is nothing", () => {
  expect(markup`<ul>${["a", "<"].map((x) => markup`<li>${x}</li>`)}</ul>${null}`.html).toBe("<ul><li>a</li><li>&lt;</li></ul>");
});
