// What a test file needs of its runner, in one process and without a report: its tests are gathered and each can be run alone, again and again.
// The matchers are those of the usual runner.
import { format } from "node:util";
import { ASYMMETRIC_MATCHERS_OBJECT, chai, JestAsymmetricMatchers, JestChaiExpect, JestExtend } from "@vitest/expect";

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
const expect = Object.assign((value, message) => chai.expect(value, message), chai.expect, globalThis[ASYMMETRIC_MATCHERS_OBJECT]);

/** @returns what stands in for the runner's module, and the list that the tests of the file now loaded are gathered in */
export function tinyRunner() {
  const tests = [];
  let group = [];
  const test = (name, given, last) => {
    const run = typeof given === "function" ? given : last;
    tests.push({ name: [...group, name].join(" > "), run });
  };
  const describe = (name, body) => {
    group = [...group, name];
    body();
    group = group.slice(0, -1);
  };
  const each = (one) => (rows) => (name, body) => {
    rows.forEach((row, i) => {
      const cells = Array.isArray(row) ? row : [row];
      one(`${format(name, ...cells)} #${i}`, () => body(...cells));
    });
  };
  test.each = each(test);
  describe.each = each(describe);
  return { tests, module: { test, it: test, describe, expect } };
}
