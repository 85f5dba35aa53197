import { expect, test } from "vitest";
import { mainChannel } from "../../../shared/record/find-channel";
import { channel, every, recordOf } from "../../builders/record";

const pressure = (position: string | null) => ({ ...channel("pressure", every(1, 3), [1e5, 1e5, 1e5]), position });

test("the main pressure is the first that is not the pump's suction, and the suction where there is no other", () => {
  const [suction, discharge] = [pressure("suction"), pressure("discharge")];
  expect(mainChannel(recordOf([suction, discharge]), "pressure")).toBe(discharge);
  expect(mainChannel(recordOf([discharge, suction]), "pressure")).toBe(discharge);
  expect(mainChannel(recordOf([suction]), "pressure")).toBe(suction);
  expect(mainChannel(recordOf([]), "pressure")).toBeNull();
});
