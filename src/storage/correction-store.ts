import { begin, type StoredCorrection } from "./database";

/** Corrections for files with these headings; null where none were made. */
export async function findCorrection(signature: string): Promise<StoredCorrection | null> {
  return (await (await begin(["corrections"])).objectStore("corrections").get(signature)) ?? null;
}

/** All, by their headings: one that is changed stays where it stands. */
export const listCorrections = async (): Promise<readonly StoredCorrection[]> =>
  (await (await begin(["corrections"])).objectStore("corrections").getAll()).toSorted((a, b) =>
    a.headings.join().localeCompare(b.headings.join()),
  );

/** Keeps a correction, unless one for the same headings was kept after it was made: what a person did last stands. */
export async function keepCorrection(correction: StoredCorrection): Promise<void> {
  const work = await begin(["corrections"], "readwrite");
  const there = await work.store.get(correction.signature);
  if (there === undefined || there.saved <= correction.saved) await work.store.put(correction);
  await work.done;
}

/** Does away with a correction, unless it was kept after `asOf`, Unix ms. */
export async function forgetCorrection(signature: string, asOf: number): Promise<void> {
  const work = await begin(["corrections"], "readwrite");
  const there = await work.store.get(signature);
  if (there !== undefined && there.saved <= asOf) await work.store.delete(signature);
  await work.done;
}
