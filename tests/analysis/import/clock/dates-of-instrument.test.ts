import { expect, test } from "vitest";
import { bar, hms, rows, table, told } from "../../../builders/log-rows";

const timesOfDay = (above: string) =>
  table(
    `${above}\nTime,Pressure (bar)`,
    rows(20, 10, (d, i) => `${hms(d)},${bar(i)}`),
  );

test.each([
  "Calibration date: 2023-11-02\nTime: 10:00:00",
  "Kalibrierdatum: 02.11.2023\nUhrzeit: 10:00",
  "Date d'étalonnage: 02/11/2023\nHeure: 10:00",
  "Certificate of 2023-11-02\nStart time: 10:00:00",
  "Start time: 10:00:00\nManufactured 2023-11-02",
])("a date of the instrument is no date of the rows: %s", async (above) => {
  const { from, asked } = await told(timesOfDay(above));
  expect({ from, asked }).toEqual({ from: "0", asked: ["start-time"] });
});

test.each(["Date: 2024-05-06\nCalibrated: 2023-11-02", "Calibration date: 2023-11-02\nStart date: 2024-05-06\nStart time: 10:00:00"])(
  "beside the date of the log: %s",
  async (above) => {
    const { from, asked } = await told(timesOfDay(above));
    expect({ from, asked }).toEqual({ from: "2024-05-06T10:00:00Z", asked: [] });
  },
);

test.each([
  "Service visit, logging started: 2024-05-06 10:00:00",
  "Wartung Pumpe 2: Beginn der Aufzeichnung 06.05.2024 10:00:00",
  "Début de l'enregistrement (mise en service): 06/05/2024 10:00:00",
])("the beginning of a log that names its occasion is the log's own: %s", async (above) => {
  const elapsed = table(
    `${above}\n\nElapsed (s),Pressure (bar)`,
    rows(20, 10, (_, i) => `${10 * i},${bar(i)}`),
  );
  expect((await told(elapsed)).from).toMatch(/^2024-0[56]-0[56]T10:00:00Z$/);
});

test("the beginning of a warranty stays none", async () => {
  const elapsed = table(
    "Logger in service, logging warranty started: 2023-11-02\n\nElapsed (s),Pressure (bar)",
    rows(20, 10, (_, i) => `${10 * i},${bar(i)}`),
  );
  expect(await told(elapsed)).toMatchObject({ from: "0", to: "190" });
});
