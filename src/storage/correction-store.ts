import { begin, type StoredCorrection } from "./database";

/** Corrections for files with these headings; null where none were made. */
export async function findCorrection(signature: string): Promise<StoredCorrection | null> {
  return (await (await begin(["corrections"])).objectStore("corrections").get(signature)) ?? null;
}

export const listCorrections = async (): Promise<readonly StoredCorrection[]> =>
  (await (await begin(["corrections"])).objectStore("corrections").getAll()).toSorted((a, b) => b.saved - a.saved);

export const keepCorrection = async (correction: StoredCorrection): Promise<void> => {
  const work = await begin(["corrections"], "readwrite");
  await work.objectStore("corrections").put(correction);
  await work.done;
};

export const deleteCorrection = async (signature: string): Promise<void> => {
  const work = await begin(["corrections"], "readwrite");
  await work.objectStore("corrections").delete(signature);
  await work.done;
};
