import { database, type StoredCorrection } from "./database";

/** Corrections for files with these headings; null where none were made. */
export async function findCorrection(signature: string): Promise<StoredCorrection | null> {
  return (await (await database()).get("corrections", signature)) ?? null;
}

export const listCorrections = async (): Promise<readonly StoredCorrection[]> =>
  (await (await database()).getAll("corrections")).toSorted((a, b) => b.saved - a.saved);

export const keepCorrection = async (correction: StoredCorrection): Promise<void> => {
  await (await database()).put("corrections", correction);
};

export const deleteCorrection = async (signature: string): Promise<void> => {
  await (await database()).delete("corrections", signature);
};
