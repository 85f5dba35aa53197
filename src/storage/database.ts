import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { VisitDigest } from "./visit-digest";

/** What a list of visits shows of one; its text and its log stand in stores of their own, so that thousands can be listed. */
export type StoredVisit = {
  readonly id: string;
  readonly title: string;
  /** Names of the log's files. */
  readonly files: readonly string[];
  /** Unix time of the last save, ms. */
  readonly saved: number;
  /** Counts the saves: a tab that saves must have seen the latest. */
  readonly revision: number;
  /** Unix time at which it was deleted, ms; null while it is not. */
  readonly deletedAt: number | null;
  /** Characters of its text and bytes of the log together, and of the log alone. */
  readonly bytes: number;
  readonly logBytes: number;
  /** Whether the log's files are kept beside it. */
  readonly hasLog: boolean;
  /** What a round shows of it; null where it holds no findings, or was kept before there were digests and not saved since. */
  readonly digest: VisitDigest | null;
};

/** The visit file without its log. */
export type StoredText = { readonly id: string; readonly text: string };

/** The log's own files: written once, since they never change. */
export type StoredLog = { readonly id: string; readonly files: readonly { readonly name: string; readonly blob: Blob }[] };

/** Corrections of how a log is read, for every file with the same headings. */
export type StoredCorrection = {
  readonly signature: string;
  /** The headings, for the reader. */
  readonly headings: readonly string[];
  readonly answers: Readonly<Record<string, string>>;
  readonly columns: readonly { readonly heading: string; readonly role: string; readonly unit: string | null }[];
  readonly saved: number;
};

interface Schema extends DBSchema {
  visits: { key: string; value: StoredVisit };
  texts: { key: string; value: StoredText };
  logs: { key: string; value: StoredLog };
  corrections: { key: string; value: StoredCorrection };
}
type Database = IDBPDatabase<Schema>;

const NAME = "evenhead";
/** 2: the texts of the visits stand in a store of their own. */
const VERSION = 2;

let opened: Promise<Database> | null = null;

/**
 * Begins a piece of work on stores of the browser, the one way into them. It may end early (the browser clears the store, no room is left);
 * its requests then say so to whoever waits for them, so that its end need not be waited for where it only reads.
 * @throws where the browser keeps nothing (a private window, storage switched off)
 */
export async function begin<const Names extends StoreNames<Schema>[], Mode extends "readonly" | "readwrite" = "readonly">(
  stores: Names,
  mode?: Mode,
): Promise<IDBPTransaction<Schema, Names, Mode>> {
  const work = (await database()).transaction(stores, mode);
  work.done.catch(() => {});
  return work;
}

/** Opened once; another tab that brings a newer version closes this one, and the next call opens again. */
function database(): Promise<Database> {
  opened ??= openDB<Schema>(NAME, VERSION, {
    async upgrade(db, from, _to, work) {
      if (from < 1) {
        db.createObjectStore("visits", { keyPath: "id" });
        db.createObjectStore("logs", { keyPath: "id" });
        db.createObjectStore("corrections", { keyPath: "signature" });
      }
      db.createObjectStore("texts", { keyPath: "id" });
      if (from === 1) await partTexts(work);
    },
    blocking: (_now, _wanted, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => {
      opened = null;
    },
  }).catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

/** In version 1 a visit held its own text. One after the other: all of them at once may not fit into memory. */
async function partTexts(work: IDBPTransaction<Schema, StoreNames<Schema>[], "versionchange">): Promise<void> {
  for (let at = await work.objectStore("visits").openCursor(); at !== null; at = await at.continue()) {
    const { text, ...visit } = at.value as StoredVisit & { readonly text?: string };
    await work.objectStore("texts").put({ id: visit.id, text: text ?? "" });
    await at.update({ ...visit, digest: null });
  }
}

/** Whether the browser refused for want of room. */
export const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === "QuotaExceededError";
