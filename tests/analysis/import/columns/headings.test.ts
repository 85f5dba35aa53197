import { describe, expect, test } from "vitest";
import { readColumns } from "../../../../analysis/import/columns/read-columns";
import { unitInHeading } from "../../../../analysis/import/columns/unit-from-text";
import { NO_CHOICES } from "../../../../analysis/import/import-log";
import { columnsOf, contextOf } from "../../../builders/log-columns";

const VALUES: Readonly<Record<string, readonly number[]>> = {
  bar: [3.1, 3.4, 3.2, 3.8, 2.9, 3.3],
  psi: [48, 52, 55, 51, 47, 60],
  flow: [0, 12.5, 14, 20.1, 0, 8],
  hz: [0, 35.2, 42, 50, 0, 41],
  temp: [18.2, 18.4, 18.1, 18.9, 19, 18.3],
  rise: [100, 101, 103, 107, 110, 112],
  flag: [0, 1, 1, 0, 0, 1],
  loop: [4.1, 8.2, 9.9, 12.4, 11.1, 7.5],
};

/** A column alone beside a clock: "role unit" of it. */
function one(heading: string, values: readonly number[], preamble: readonly string[] = []) {
  const rows = Array.from(
    { length: 24 },
    (_, i) => `2024-05-01 10:00:${String(i).padStart(2, "0")}|${values === VALUES.rise ? 100 + i : values[i % values.length]}`,
  );
  const [, column] = readColumns(columnsOf(`Time|${heading}`, rows), contextOf(preamble), NO_CHOICES);
  return column;
}

describe("a unit with words behind it in its brackets", () => {
  test.each([
    ["Pressure (bar at header)", "bar"],
    ["Flow (gal/min UK)", "imp gpm"],
    ["Flow (gpm - imperial)", "imp gpm"],
    ["Flow gal(Imp)/min", "imp gpm"],
    ["Flow (gal/min US)", "gpm"],
    ["Speed (Hz output)", "Hz"],
    ["Waterstand (m NAP)", "m"],
    ["Level (m above floor)", "m"],
    ["Pegel (m ü. NN)", "m"],
    ["Pump speed (% of full speed)", "%"],
  ])("%s is in %s", (heading, symbol) => expect(unitInHeading(heading)?.unit.symbol).toBe(symbol));
  test.each(["Flow (in use)", "Pressure (at header)", "Current (A phase)"])("%s has none", (heading) => {
    expect(unitInHeading(heading)).toBeNull();
  });
});

describe("headings of seven languages", () => {
  test.each([
    // English
    ["Discharge Pressure (psig)", "psi", "pressure psig discharge"],
    ["Tank_Pressure_kPa", "psi", "pressure kPa tank"],
    ["Suction pressure, inHg", "flow", "pressure inHg suction"],
    ["PT-101 [bar]", "bar", "pressure bar null"],
    ["Flow Rate - GPM", "flow", "flow gpm null"],
    ["Flow (imp gpm)", "flow", "flow imp gpm null"],
    ["FlowRate_m3h", "flow", "flow m³/h null"],
    ["VFD Output Frequency Hz", "hz", "speed Hz drive"],
    ["Pump Speed (%)", "hz", "speed % pump"],
    ["Motor Amps (A)", "flow", "current A motor"],
    ["Power kW", "flow", "power kW null"],
    ["Pump Running", "flag", "running null pump"],
    ["Pompe marche/arrêt", "flag", "running null pump"],
    ["Pump 1 On/Off", "flag", "running null pump 1"],
    ["Water Temp (°F)", "psi", "temperature °F null"],
    ["Tank Level ft", "flow", "level ft tank"],
    ["Totalizer (gal)", "rise", "volume gal null"],
    ["Total Flow [m3]", "rise", "volume m³ null"],
    ["Current pressure (bar)", "bar", "pressure bar null"],
    ["Flow temperature °C", "temp", "temperature °C null"],
    ["pressureBar", "bar", "pressure bar null"],
    ["pressure.bar", "bar", "pressure bar null"],
    ["Far end pressure (bar)", "bar", "pressure bar far end"],
    ["Supply pressure (bar)", "bar", "pressure bar null"],
    ["Valve inlet pressure (bar)", "bar", "pressure bar suction"],
    ["Valve position (%)", "bar", "other % null"],
    ["Flow L per min", "flow", "flow L/min null"],
    ["Flow (kL/h)", "flow", "flow m³/h null"],
    ["pH", "bar", "other null null"],
    ["Ext. power (V)", "bar", "other V null"],
    ["Waterniveau (m)", "bar", "level m null"],
    ["Grundwasserstand (m)", "bar", "level m null"],
    ["Druckhöhe (m)", "bar", "pressure mH2O null"],
    ["Omw./min.", "psi", "speed rpm null"],
    ["Pompe (tours/minute)", "psi", "speed rpm pump"],
    ["Niederschlag (mm)", "bar", "other mm null"],
    ["n [-]", "rise", "other null null"],
    ["Speed", "rise", "other null null"],
    // German
    ["Systemdruck [bar]", "bar", "pressure bar system"],
    ["Vordruck (mbar)", "psi", "pressure mbar suction"],
    ["Durchfluss in l/min", "flow", "flow L/min null"],
    ["Volumenstrom m³/h", "flow", "flow m³/h null"],
    ["Drehzahl (U/min)", "psi", "speed rpm null"],
    ["Umrichterfrequenz / Hz", "hz", "speed Hz drive"],
    ["Motorstrom [A]", "flow", "current A motor"],
    ["Leistungsaufnahme kW", "flow", "power kW null"],
    ["Pumpe läuft", "flag", "running null pump"],
    ["Wassertemperatur °C", "temp", "temperature °C null"],
    ["Füllstand (m)", "bar", "level m null"],
    ["Zählerstand m³", "rise", "volume m³ null"],
    // French
    ["Pression refoulement (bar)", "bar", "pressure bar discharge"],
    ["Débit (m³/h)", "flow", "flow m³/h null"],
    ["Vitesse pompe (tr/min)", "psi", "speed rpm pump"],
    ["Fréquence (Hz)", "hz", "speed Hz null"],
    ["Intensité moteur (A)", "flow", "current A motor"],
    ["Puissance (kW)", "flow", "power kW null"],
    ["Marche pompe", "flag", "running null pump"],
    ["Température eau (°C)", "temp", "temperature °C null"],
    ["Niveau (m)", "bar", "level m null"],
    ["Totalisateur (m3)", "rise", "volume m³ null"],
    // Spanish
    ["Presión descarga (kg/cm2)", "bar", "pressure kgf/cm² discharge"],
    ["Caudal (l/s)", "flow", "flow L/s null"],
    ["Velocidad (rpm)", "psi", "speed rpm null"],
    ["Corriente motor (A)", "flow", "current A motor"],
    ["Potencia [kW]", "flow", "power kW null"],
    ["Bomba en marcha", "flag", "running null pump"],
    ["Nivel depósito (m)", "bar", "level m tank"],
    ["Volumen acumulado (m3)", "rise", "volume m³ null"],
    // Portuguese
    ["Pressão de sucção (mca)", "flow", "pressure mH2O suction"],
    ["Vazão (L/min)", "flow", "flow L/min null"],
    ["Rotação (rpm)", "psi", "speed rpm null"],
    ["Corrente (A)", "flow", "current A null"],
    ["Bomba ligada", "flag", "running null pump"],
    // Italian
    ["Pressione mandata (bar)", "bar", "pressure bar discharge"],
    ["Portata (l/min)", "flow", "flow L/min null"],
    ["Velocità pompa (giri/min)", "psi", "speed rpm pump"],
    ["Assorbimento corrente (A)", "flow", "current A null"],
    ["Pompa in marcia", "flag", "running null pump"],
    ["Livello serbatoio (m)", "bar", "level m tank"],
    // Dutch
    ["Persdruk (bar)", "bar", "pressure bar discharge"],
    ["Zuigdruk (bar)", "bar", "pressure bar suction"],
    ["Debiet (m3/h)", "flow", "flow m³/h null"],
    ["Toerental (tpm)", "psi", "speed rpm null"],
    ["Stroom (A)", "flow", "current A null"],
    ["Vermogen (kW)", "flow", "power kW null"],
    ["Pomp draait", "flag", "running null pump"],
    ["Waterpeil (cm)", "psi", "level cm null"],
    ["Meterstand (m3)", "rise", "volume m³ null"],
    // letters, marks and abbreviations
    ["h [m]", "bar", "level m null"],
    ["p1 [bar]", "bar", "pressure bar null"],
    ["Q [l/min]", "flow", "flow L/min null"],
    ["n [1/min]", "psi", "speed rpm null"],
    ["I [A]", "flow", "current A null"],
    ["P [kW]", "flow", "power kW null"],
    ["Druck bar(a)", "bar", "pressure bara null"],
    ["Pressure(bar)(abs)", "bar", "pressure bar null"],
    ["Press. Disch. (PSIG)", "psi", "pressure psig discharge"],
    ["AI1 Pressure 0-10bar", "bar", "pressure bar null"],
    ["Head (ft)", "psi", "pressure ftH2O null"],
    ["Durchfl. [m3/h]", "flow", "flow m³/h null"],
    ["M1 ON", "flag", "running null null"],
    ["Pump B running", "flag", "running null pump b"],
    ["Differenzdruck [mbar]", "psi", "pressure mbar difference"],
    ["Diff pressure (bar)", "psi", "pressure bar difference"],
    ["Pressure after filter (psi)", "psi", "pressure psi downstream"],
    ["Outlet P (psi)", "psi", "pressure psi discharge"],
    ["Run hours (h)", "rise", "other null null"],
    ["Barometric pressure (hPa)", "psi", "other hPa null"],
    // none of them
    ["anomaly", "flag", "other null null"],
    ["Pressure setpoint (bar)", "bar", "other bar null"],
    ["Sollwert Druck (bar)", "bar", "other bar null"],
    ["Battery (V)", "bar", "other V null"],
    ["Vibration (mm)", "bar", "other mm null"],
    ["Humidity (%)", "psi", "other % null"],
    ["__proto__", "bar", "other null null"],
  ])("%s", (heading, values, expected) => {
    const column = one(heading, VALUES[values]);
    expect(`${column.role} ${column.unit} ${column.position}`).toBe(expected);
    expect(column.questions.filter((q) => !q.id.startsWith("column-role"))).toEqual([]);
  });
});

describe("what has to be asked, and what not", () => {
  const asked = (heading: string, values: readonly number[], preamble: readonly string[] = []) =>
    one(heading, values, preamble).questions.map((q) => q.id);

  test("a pressure without a unit is asked, with a proposal from the size of its values", () => {
    expect(one("Pressure", VALUES.bar).questions.map((q) => `${q.id} ${q.assumed}`)).toEqual(["unit:Pressure bar"]);
    expect(one("Pressure", VALUES.psi).questions.map((q) => `${q.id} ${q.assumed}`)).toEqual(["unit:Pressure psi"]);
  });
  test("a unit above the table settles it", () => {
    for (const line of ["Pressure unit: psi", "Pressure;psi", "Pressure = 0-100 psi", "Units: s, psi"]) {
      expect([line, one("Pressure", VALUES.psi, [line]).unit, asked("Pressure", VALUES.psi, [line])]).toEqual([line, "psi", []]);
    }
  });
  test("a channel named above the table", () => {
    for (const line of [
      "Ch1: Pressure, bar",
      "CH1;Druck;bar",
      "Channel 1 = Discharge pressure (bar)",
      "# Ch1 - Pression [bar]",
      "1: Pressure bar",
    ]) {
      const column = one("Ch1", VALUES.bar, [line]);
      expect([line, column.role, column.unit, column.questions]).toEqual([line, "pressure", "bar", []]);
    }
  });
  test("one unit for the file, one description for the only channel", () => {
    for (const line of ["Einheit: psi", "Units: psi", "Engineering unit,psi"])
      expect([line, one("Pressure", VALUES.psi, [line]).unit, asked("Pressure", VALUES.psi, [line])]).toEqual([line, "psi", []]);
    const told = one("Value", VALUES.psi, ["Description: Discharge pressure", "Unit: psi"]);
    expect([told.role, told.unit, told.questions]).toEqual(["pressure", "psi", []]);
    expect(asked("Flow", VALUES.flow, ["Units: psi"])).toEqual(["unit:Flow"]);
  });
  test("a line that names several channels gives each its own unit only", () => {
    expect(one("Pressure", VALUES.bar, ["Pressure [bar] / Flow [L/min] / Temp [degC]"]).unit).toBe("bar");
  });
  test("a frequency without a unit is in hertz", () => {
    expect(asked("Freq", VALUES.hz)).toEqual([]);
  });
  test.each(["Sonde (m)", "Cuve (cm)", "Pump (%)", "Motor (xyz/min)", "Pompe 1"])("what may be a channel is asked: %s", (heading) =>
    expect(asked(heading, VALUES.psi)).toEqual([`column-role:${heading}`]),
  );
  test.each(["Motor load (%)", "Pump efficiency (%)", "Pump (kWh)"])(
    "what a machine is known to have beside its speed is not asked: %s",
    (heading) => expect(asked(heading, VALUES.psi)).toEqual([]),
  );
  test("a channel that nothing names is asked", () => expect(asked("Ch1", VALUES.bar)).toEqual(["column-role:Ch1"]));
  test("a loop signal is asked for its range, not for its role", () => {
    expect(asked("Ch1 (mA)", VALUES.loop)).toEqual(["range:Ch1 (mA)"]);
    expect(one("Ch1 (mA)", VALUES.loop).raw?.kind).toBe("4-20 mA");
  });
  test.each([
    ["Ch1 (mA)", "Ch1: 4-20 mA = 0-10 bar"],
    ["Ch1 (mA)", "Transducer range: 0-10 bar"],
    ["Pressure mA (0-10 bar)", ""],
    ["Ch1 (mA)", "Scaling: 4 mA = 0 bar, 20 mA = 10 bar"],
  ])("%s with %j has its range", (heading, line) => {
    const column = one(heading, VALUES.loop, [line]);
    expect(column.questions).toEqual([]);
    expect([column.role, 12 * column.factor + column.offset]).toEqual(["pressure", expect.closeTo(5e5, 3)]);
  });
  test("a signal and its range in the heading are raw where the values fit the signal, scaled where the unit stands by itself", () => {
    const volts = one("Pressure (1-5V = 0-100 psi)", [1.5, 2, 3, 4.2]);
    expect([volts.raw?.kind, 3 * volts.factor + volts.offset]).toEqual(["1-5 V", expect.closeTo(50 * 6894.757, 0)]); // NIST SP 811, App. B.8
    expect(one("Pressure [bar] (4-20 mA sensor)", VALUES.bar).raw).toBeNull();
  });
  test("a plain gallon is imperial where the file says so", () => {
    expect(one("Flow (gpm)", VALUES.flow).unit).toBe("gpm");
    expect(one("Flow (gpm)", VALUES.flow, ["Units: imperial gallons"]).unit).toBe("imp gpm");
  });
  test("a motor current in amperes is no loop signal", () => expect(one("Motor current (A)", VALUES.loop).raw).toBeNull());
  test("volts of a pressure sensor are asked for their range", () => {
    expect(asked("Pressure (V)", [1.2, 3.4, 5.9, 7.7])).toEqual(["range:Pressure (V)"]);
    expect(one("Pressure (V)", [1.2, 3.4, 5.9, 7.7]).raw?.kind).toBe("0-10 V");
    expect(one("Pressure 1-5V", [1.2, 3.4, 4.9, 2.7]).raw?.kind).toBe("1-5 V");
  });
  test("pulses without a K-factor are asked", () => {
    expect(asked("Flow pulses", VALUES.rise)).toEqual(["k-factor:Flow pulses"]);
    const told = one("Flow pulses", VALUES.rise, ["K-factor: 450 pulses/gal"]);
    expect([told.questions, told.factor]).toEqual([[], expect.closeTo(3.785411784e-3 / 450, 12)]); // NIST SP 811, App. B.8
    expect(one("Pulses (10 L/pulse)", VALUES.rise).factor).toBeCloseTo(0.01, 12);
  });
  test("plain pressure is gauge; words say absolute; values that rest at the air are asked", () => {
    expect(one("Pressure (bar)", VALUES.bar).quantity).toBe("gaugePressure");
    expect(one("Pressure (bar abs)", VALUES.bar).quantity).toBe("absolutePressure");
    expect(one("Absolute pressure (kPa)", VALUES.psi).quantity).toBe("absolutePressure");
    const resting = one("Pressure (bar)", [1.01, 1.01, 1.02, 3.4, 4.1, 3.9]);
    expect([resting.quantity, resting.questions.map((q) => q.id)]).toEqual(["absolutePressure", ["reference:Pressure (bar)"]]);
    expect(asked("Pressure (bar)", [0.0, 0.01, 1.02, 3.4, 4.1, 3.9])).toEqual([]);
  });
  test("a mark far from the values is no reading, and one near them is asked", () => {
    expect(one("Pressure (bar)", [3.1, 3.2, -9999, 3.3, 3.2, 3.1]).sentinels).toContain(-9999);
    expect(one("Flow (L/min)", [850, 912, 999, 905, 870, 999]).sentinels).not.toContain(999);
    expect(one("Totalizer (gal)", VALUES.rise).sentinels).toEqual([]);
  });
});

test("two columns of one heading get along", () => {
  const rows = Array.from({ length: 12 }, (_, i) => `2024-05-01 10:00:${10 + i}|${3 + i / 10}|${4 + i / 10}`);
  const [, a, b] = readColumns(columnsOf("Time|Pressure|Pressure", rows), contextOf(), NO_CHOICES);
  expect([a, b].map((c) => c.questions[0].id)).toEqual(["unit:Pressure", "unit:Pressure (2)"]);
});

describe("choices", () => {
  const rows = Array.from({ length: 12 }, (_, i) => `2024-05-01 10:00:${10 + i}|${4.1 + i / 10}`);
  const choose = (
    heading: string,
    answers: Readonly<Record<string, string>>,
    columns: { heading: string; role: "pressure" | "flow"; unit: string | null }[] = [],
  ) => readColumns(columnsOf(`Time|${heading}`, rows), contextOf(), { answers, columns, zone: null })[1];

  test("a role and unit set by hand", () => {
    const column = choose("X", {}, [{ heading: "X", role: "pressure", unit: "psi" }]);
    expect([column.role, column.unit, column.quantity, column.questions]).toEqual(["pressure", "psi", "gaugePressure", []]);
  });
  test("answers to questions", () => {
    expect(choose("Ch1", { "column-role:Ch1": "flow", "unit:Ch1": "gpm" }).factor).toBeCloseTo(6.30902e-5, 9); // NIST SP 811, App. B.8
    expect(choose("Ch1 (mA)", { "range:Ch1 (mA)": "0..10 bar" }).factor * 16).toBeCloseTo(1e6, 3);
    expect(choose("Pressure (bar)", { "reference:Pressure (bar)": "absolute" }).quantity).toBe("absolutePressure");
  });
  test("what is not understood is a clear problem", () => {
    expect(() => choose("X", {}, [{ heading: "X", role: "pressure", unit: "furlongs" }])).toThrow("unknown-answer");
    expect(() => choose("X", { "column-role:X": "magic" })).toThrow("unknown-answer");
    expect(() => choose("X", { "range:X": "wide" })).toThrow("unknown-answer");
  });
});
