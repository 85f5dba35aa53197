import { expect, test } from "vitest";
import { turnMotor } from "../../../analysis/model/motor";

const drive = { rampUp: 2, rampDown: 4, motorLag: 0.5 };
const turned = (asked: number, dt: number, steps: number, from = 0, lag = drive.motorLag) => {
  const motor = { ramped: from, speed: from, mean: from };
  let turns = 0;
  for (let i = 0; i < steps; i++) {
    turnMotor(motor, asked, { ...drive, motorLag: lag }, dt);
    turns += motor.mean * dt;
  }
  return { ...motor, turns };
};

test("a motor behind its ramp follows r - s t' (1 - e^(-t/t')), the closed answer of a first-order lag to a ramp", () => {
  const lag = 0.5;
  for (const t of [0.1, 0.7, 1.3]) expect(turned(1, t, 1).speed).toBeCloseTo(t / 2 - (lag / 2) * (1 - Math.exp(-t / lag)), 12);
});

test("so many small steps or one long one: the same speed and the same number of turns, also where the ramp ends inside the step", () => {
  for (const [asked, from] of [
    [0.6, 0],
    [0.2, 0.9],
    [0.501, 0.5],
  ]) {
    const [one, many] = [turned(asked, 3, 1, from), turned(asked, 0.01, 300, from)];
    expect(one.speed).toBeCloseTo(many.speed, 9);
    expect(one.turns).toBeCloseTo(many.turns, 9);
  }
});

test("without a lag the speed is the ramp's, and what is reached stays", () => {
  expect(turned(0.4, 1, 1, 0, 0)).toMatchObject({ ramped: 0.4, speed: 0.4 });
  expect(turned(0.4, 1, 3, 0.4)).toMatchObject({ speed: 0.4, mean: 0.4 });
});
