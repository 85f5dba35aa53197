import type { Page } from "playwright-core";

export type TextFile = { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };

export const textFile = (name: string, text: string): TextFile => ({ name, mimeType: "text/csv", buffer: Buffer.from(text, "utf8") });

/** Two hours of a drive that holds 52 psi, swings by 4 psi every 20 s in the first hour and starts every 50 s in the second. */
export function plainLog(name: string): TextFile {
  const rows = ["Logged on an invented site", "Time,P1 [psi],Flow [gpm],Speed [Hz]"];
  for (let i = 0; i < 7200; i++) {
    const swinging = i < 3600;
    const isOn = swinging || i % 50 < 20;
    const pressure = swinging ? 52 + 2 * Math.sin((2 * Math.PI * i) / 20) : isOn ? 45 + (i % 50) * 0.5 : 55 - ((i % 50) - 20) / 3;
    const time = new Date(Date.UTC(2024, 4, 3, 8) + i * 1000).toISOString().slice(0, 19).replace("T", " ");
    rows.push(`${time},${pressure.toFixed(2)},${(swinging ? 12 : 3).toFixed(1)},${isOn ? 48 : 0}`);
  }
  return textFile(name, `${rows.join("\n")}\n`);
}

/** Picks files as a person does. */
export async function bringIn(page: Page, ...files: readonly TextFile[]): Promise<void> {
  await page
    .locator('input[type="file"][multiple]')
    .first()
    .setInputFiles([...files]);
}

/**
 * Twelve hours of a switched pump whose tank loses 0.3 L/min through the check valve: by Boyle's law, 24.1 kJ of gas, 2.4 to 3.4 bar. A draw of
 * 6 L/min for two minutes in each hour.
 */
export function leakyLog(name: string): TextFile {
  const rows = ["Time,P1 [bar],Flow [L/min],Pump [on/off]"];
  const [gas, air] = [24.1e3, 101_325];
  let pressure = 3.3e5;
  let isOn = false;
  for (let i = 0; i < 12 * 720; i++) {
    const draw = i % 720 < 24 ? 6 : 0;
    const litresAMinute = (isOn ? 40 : 0) - draw - (isOn ? 0 : 0.3);
    pressure = 1 / (1 / (pressure + air) - (litresAMinute / 60_000) * (5 / gas)) - air;
    if (pressure < 2.4e5) isOn = true;
    if (pressure > 3.4e5) isOn = false;
    const time = new Date(Date.UTC(2024, 4, 3, 0) + i * 5000).toISOString().slice(0, 19).replace("T", " ");
    rows.push(`${time},${(pressure / 1e5).toFixed(3)},${draw.toFixed(1)},${isOn ? 1 : 0}`);
  }
  return textFile(name, `${rows.join("\n")}\n`);
}
