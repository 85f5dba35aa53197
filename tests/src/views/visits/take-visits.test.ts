import { expect, test } from "vitest";
import { VISITS_WORDS } from "../../../../shared/wording/visits";
import type { FromArchive } from "../../../../src/storage/archive";
import { takeVisits } from "../../../../src/views/visits/take-visits";

async function* from(...visits: readonly FromArchive[]) {
  yield* visits;
}
const visit = (name: string): FromArchive => ({ name, text: "{}", files: [] });
/** Keeps all but those that are named "full". */
function keeper() {
  const shown: string[] = [];
  const take = async (name: string, _text: string, _files: unknown, isShown: boolean) => {
    if (isShown) shown.push(name);
    return name === "full" ? { isKept: false, said: "full: no room." } : { isKept: true, said: null };
  };
  return { shown, take };
}

test("one visit alone is put on the page, of several none is", async () => {
  const alone = keeper();
  expect(await takeVisits(from(visit("a")), alone, () => {})).toEqual({ read: 1, said: [] });
  expect(alone.shown).toEqual(["a"]);
  const several = keeper();
  const counted: number[] = [];
  expect(await takeVisits(from(visit("a"), visit("b")), several, (n) => counted.push(n))).toEqual({ read: 2, said: [] });
  expect([several.shown, counted]).toEqual([[], [1, 2]]);
});

test("what could not be kept is said and costs no other", async () => {
  const bad: FromArchive = { name: "x.json", problem: { id: "entry-damaged" } };
  const taken = await takeVisits(from(visit("a"), bad, visit("full"), visit("b")), keeper(), () => {});
  expect(taken.read).toBe(2);
  expect(VISITS_WORDS.read(taken.read, taken.said)).toBe(
    "2 visits read. x.json is damaged in its archive; the other visits were read. Save it again where it was made. full: no room.",
  );
  expect(VISITS_WORDS.read(1, [])).toBe("");
});
