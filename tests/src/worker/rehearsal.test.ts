import { expect, test, vi } from "vitest";
import { makeHandle, type Stations } from "../../../src/worker/handle";
import { makeRehearsal } from "../../../src/worker/rehearsal";
import { stations } from "../../../src/worker/stations";

/** The real stations, with what went through them. */
async function watched() {
  const [{ importLog }, working] = await Promise.all([stations.fileReading(), stations.workingOut()]);
  const done = { records: [] as (readonly string[])[], steps: 0, documents: 0 };
  const watching: Stations = {
    ...stations,
    fileReading: async () => ({
      async importLog(...order) {
        const result = await importLog(...order);
        done.records.push(result.record.channels.map(({ role }) => role));
        return result;
      },
    }),
    workingOut: async () => ({
      ...working,
      *analyseInSteps(...order) {
        const steps = working.analyseInSteps(...order);
        for (let step = steps.next(); ; step = steps.next()) {
          if (step.done === true) return step.value;
          done.steps++;
          yield step.value;
        }
      },
      writeFindings(...order) {
        done.documents++;
        return working.writeFindings(...order);
      },
    }),
  };
  return { done, handle: makeHandle(watching) };
}

test("the rehearsal goes the whole way from a file to the findings document", async () => {
  const { done, handle } = await watched();
  makeRehearsal(handle).begin();
  await vi.waitFor(() => expect(done.documents).toBe(1), 30_000);
  expect(done.records).toEqual([["pressure", "flow", "speed"]]);
});

test("the rehearsal ends before its next step when a real file comes", async () => {
  const { done, handle } = await watched();
  const rehearsal = makeRehearsal(handle);
  rehearsal.begin();
  await vi.waitFor(() => expect(done.steps).toBeGreaterThan(0), { timeout: 30_000, interval: 1 });
  const steps = done.steps;
  rehearsal.end();
  await new Promise((resolve) => setTimeout(resolve, 500));
  expect(done.steps).toBeLessThanOrEqual(steps + 1);
  expect(done.documents).toBe(0);
});
