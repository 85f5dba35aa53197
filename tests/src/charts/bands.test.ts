import { describe, expect, test } from "vitest";
import { type Band, neighbour, placeAt } from "../../../src/charts/bands";
import { span } from "../../builders/trace";

const place = (from: number, to: number) => ({ ...span(from, to), note: null });
const running: Band = { kind: "running", finding: "cycling", places: [place(0, 10), place(20, 30), place(50, 90)] };
const draws: Band = { kind: "draw", finding: "demand", places: [place(25, 60)] };

describe("touching a band", () => {
  test("the place under the pointer is found, or one within reach", () => {
    expect(placeAt(running.places, 25, 0)).toEqual(place(20, 30));
    expect(placeAt(running.places, 31, 2)).toEqual(place(20, 30));
    expect(placeAt(running.places, 40, 2)).toBeNull();
  });
  test("of two within reach the nearer is taken", () => {
    expect(placeAt(running.places, 18, 9)).toEqual(place(20, 30));
  });
});

describe("stepping through places", () => {
  test("goes to the next beginning over all bands, and back", () => {
    expect(neighbour([running, draws], 20, 1)?.place).toEqual(place(25, 60));
    expect(neighbour([running, draws], 25, 1)?.place).toEqual(place(50, 90));
    expect(neighbour([running, draws], 25, -1)).toEqual({ band: running, place: place(20, 30) });
  });
  test("ends where there is nothing more", () => {
    expect(neighbour([running, draws], 50, 1)).toBeNull();
    expect(neighbour([running], 0, -1)).toBeNull();
    expect(neighbour([], 0, 1)).toBeNull();
  });
});
