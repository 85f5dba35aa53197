import type { ImportQuestion } from "../../shared/record/import-question";
import type { ClockReading } from "./clock/clock-reading";
import { ALL_ROWS, ROWS_OF } from "./columns/column-choices";
import type { ColumnText } from "./columns/column-reading";
import { isMissing } from "./number-format";

/** Rows of several devices in one table: which column names the device of a row, and the names seen before the bulk is read. */
export type DeviceColumn = { readonly key: number; readonly names: readonly string[] };

/** Headings over the names of devices and places, in the languages of the headings; common practice, no source. */
const DEVICE_WORD =
  /(?:^|[^\p{L}])(?:device|logger|unit|station|site|location|place|building|house|room|zone|area|plant|pump|meter|probe|sensor|node|instrument|equipment|asset|serial|serial ?n(?:o|r|umber)|s\/?n|address|source|group|ger[äa]t|standort|ort|anlage|geb[äa]ude|raum|pumpe|z[äa]hler|seriennummer|quelle|messstelle|appareil|enregistreur|lieu|b[âa]timent|pompe|compteur|emplacement|capteur|dispositivo|equipo|ubicaci[óo]n|lugar|edificio|bomba|contador|equipamento|local|edif[íi]cio|medidor|strumento|luogo|pompa|contatore|impianto|posizione|apparaat|toestel|locatie|gebouw|pomp|teller|plaats)(?:$|[^\p{L}])/iu;
const MOST_DEVICES = 64;
/** Share of the shorter stretch of time that two devices must have in common: one after the other they would be one log. */
const TOGETHER = 0.5;
/** Share of steps back that the names may leave unexplained: a single repeated row. */
const UNEXPLAINED = 0.1;

/**
 * The column that parts a table into devices: the instants of the whole go back or repeat, those under each name do not, and the names claim the
 * same stretch of time. Null where one clock runs through all rows.
 */
export function findDevices(texts: readonly ColumnText[], clock: ClockReading): DeviceColumn | null {
  if (clock.kind === "counted" || clock.rollsOverMidnight) return null;
  const times = texts[0].sample.map((_, row) => clock.parse(clock.columns.map((index) => texts[index].sample[row])));
  const whole = backSteps(times);
  if (whole === 0) return null;
  for (const text of texts) {
    if (clock.columns.includes(text.index)) continue;
    const stretches = byName(text, times, clock.kind === "elapsed");
    if (stretches === null || !overlap(stretches)) continue;
    const own = [...stretches.values()].reduce((sum, { rows }) => sum + backSteps(rows), 0);
    if (own <= UNEXPLAINED * whole) return { key: text.index, names: [...stretches.keys()] };
  }
  return null;
}

type Stretch = { readonly rows: number[]; low: number; high: number };

/** Instants under each name; null where the column holds no names of devices. Numbers and runs of a counter need a heading that says device. */
function byName({ heading, sample }: ColumnText, times: readonly number[], counts: boolean): Map<string, Stretch> | null {
  const said = DEVICE_WORD.test(heading);
  const found = new Map<string, Stretch>();
  for (let row = 0; row < sample.length; row++) {
    const name = sample[row];
    if (isMissing(name) || (!said && (counts || !/\p{L}/u.test(name))) || /^[-+]?\d+[.,]\d/.test(name)) return null;
    const stretch = found.get(name) ?? { rows: [], low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
    const t = times[row];
    if (found.size === MOST_DEVICES && !found.has(name)) return null;
    found.set(name, stretch);
    if (Number.isNaN(t)) continue;
    stretch.rows.push(t);
    stretch.low = Math.min(stretch.low, t);
    stretch.high = Math.max(stretch.high, t);
  }
  return found.size > 1 && sample.length >= 2 * found.size ? found : null;
}

/** How often a row does not stand after the one before it, in a file with the oldest or with the newest row first. */
function backSteps(times: readonly number[]): number {
  let [up, down, equal] = [0, 0, 0];
  let last = Number.NaN;
  for (const t of times) {
    if (Number.isNaN(t)) continue;
    if (t > last) up++;
    else if (t < last) down++;
    else if (t === last) equal++;
    last = t;
  }
  return Math.min(up, down) + equal;
}

/** Whether every name shares much of its time with another. */
function overlap(stretches: ReadonlyMap<string, Stretch>): boolean {
  const all = [...stretches.values()].filter(({ rows }) => rows.length > 1);
  if (all.length < 2) return false;
  return all.every((one) =>
    all.some((other) => {
      const common = Math.min(one.high, other.high) - Math.max(one.low, other.low);
      return other !== one && common >= TOGETHER * Math.min(one.high - one.low, other.high - other.low);
    }),
  );
}

/** Which device's rows are the system looked at: all are kept until a person says so. */
export const deviceQuestion = (heading: string, names: readonly string[]): ImportQuestion => ({
  id: `column-role:${heading}`,
  asks: { kind: "devices", heading, names },
  options: [ALL_ROWS, ...names.map((name) => `${ROWS_OF}${name}`)],
  assumed: ALL_ROWS,
});
