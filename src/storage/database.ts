import { type DBSchema, type IDBPDatabase, openDB } from "idb";

/** A visit as it is kept: the text of its visit file without the log, and what a list of visits shows of it. */
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
  /** Characters of `text` and bytes of the log together, and of the log alone. */
  readonly bytes: number;
  readonly logBytes: number;
  /** Whether the log's files are kept beside it. */
  readonly hasLog: boolean;
  readonly text: string;
};

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
  logs: { key: string; value: StoredLog };
  corrections: { key: string; value: StoredCorrection };
}
export type Database = IDBPDatabase<Schema>;

const NAME = "evenhead";
const VERSION = 1;

let opened: Promise<Database> | null = null;

/**
 * The browser's store. Opened once; another tab that brings a newer version closes this one, and the next call opens again.
 * @throws where the browser keeps nothing (a private window, storage switched off)
 */
export function database(): Promise<Database> {
  opened ??= openDB<Schema>(NAME, VERSION, {
    upgrade(db) {
      db.createObjectStore("visits", { keyPath: "id" });
      db.createObjectStore("logs", { keyPath: "id" });
      db.createObjectStore("corrections", { keyPath: "signature" });
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

/** Whether the browser refused for want of room. */
export const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === "QuotaExceededError";
