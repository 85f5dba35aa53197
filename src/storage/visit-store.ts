import { readVisitFile } from "../../shared/schemas/visit-file";
import { begin, isFull, type StoredLog, type StoredVisit } from "./database";
import { DIGEST_FORM, digestOfVisit } from "./visit-digest";

export type SaveOutcome =
  | { readonly state: "saved"; readonly revision: number }
  /** The visit is kept, the log's files are not: no room for them. */
  | { readonly state: "saved-without-log"; readonly revision: number }
  /** No room at all; what was kept before is untouched. */
  | { readonly state: "full" }
  /** Another tab saved this visit meanwhile; nothing was written over. */
  | { readonly state: "changed-elsewhere"; readonly revision: number }
  | { readonly state: "not-possible"; readonly why: string };

/** What is saved: everything but what the store itself adds. */
export type VisitToSave = Omit<StoredVisit, "revision" | "deletedAt" | "bytes" | "logBytes" | "hasLog"> & { readonly text: string };

/**
 * Keeps a visit with its log in one transaction: a crash in the middle leaves the last whole state.
 * @param base the revision this tab saw last, 0 for a new visit; `null` writes over whatever is there
 */
export async function saveVisit(visit: VisitToSave, log: StoredLog["files"], base: number | null): Promise<SaveOutcome> {
  try {
    return await write(visit, log, base);
  } catch (error) {
    if (!isFull(error)) return { state: "not-possible", why: error instanceof Error ? error.message : String(error) };
  }
  try {
    const outcome = await write(visit, null, base);
    return outcome.state === "saved" ? { state: "saved-without-log", revision: outcome.revision } : outcome;
  } catch (error) {
    return isFull(error) ? { state: "full" } : { state: "not-possible", why: error instanceof Error ? error.message : String(error) };
  }
}

async function write(visit: VisitToSave, log: StoredLog["files"] | null, base: number | null): Promise<SaveOutcome> {
  const work = await begin(["visits", "texts", "logs"], "readwrite");
  // Where the browser gives up the whole transaction (no room), its requests only say that they were aborted: the reason is told here.
  const ended = work.done.then(
    () => null,
    (error: unknown) => error,
  );
  try {
    const visits = work.objectStore("visits");
    const logs = work.objectStore("logs");
    const there = await visits.get(visit.id);
    if (base !== null && there !== undefined && there.revision !== base) {
      work.abort();
      return { state: "changed-elsewhere", revision: there.revision };
    }
    const keptLog = (await logs.getKey(visit.id)) !== undefined;
    const newLog = keptLog || log === null || log.length === 0 ? null : log;
    const logBytes = keptLog ? (there?.logBytes ?? 0) : (newLog ?? []).reduce((sum, file) => sum + file.blob.size, 0);
    const revision = (there?.revision ?? 0) + 1;
    const { text, ...listed } = visit;
    const bytes = text.length + logBytes;
    await work.objectStore("texts").put({ id: visit.id, text });
    await visits.put({ ...listed, revision, deletedAt: null, logBytes, bytes, hasLog: keptLog || newLog !== null });
    if (newLog !== null) await logs.put({ id: visit.id, files: newLog });
    await work.done;
    askToLast();
    return { state: "saved", revision };
  } catch (error) {
    throw (await ended) ?? error;
  }
}

let hasAsked = false;

/** Asks the browser once not to clear the store by itself when the device runs short of room; it may say no. */
function askToLast(): void {
  if (hasAsked) return;
  hasAsked = true;
  navigator.storage?.persist?.().catch(() => {});
}

/** All visits, latest first, those marked as deleted included. */
export async function listVisits(): Promise<readonly StoredVisit[]> {
  const visits = await (await begin(["visits"])).objectStore("visits").getAll();
  return visits.toSorted((a, b) => b.saved - a.saved);
}

export type LoadedVisit = { readonly visit: StoredVisit; readonly text: string; readonly log: StoredLog["files"] };

export async function loadVisit(id: string): Promise<LoadedVisit | null> {
  const work = await begin(["visits", "texts", "logs"]);
  const [visit, text, log] = await Promise.all([
    work.objectStore("visits").get(id),
    work.objectStore("texts").get(id),
    work.objectStore("logs").get(id),
  ]);
  return visit === undefined ? null : { visit, text: text?.text ?? "", log: log?.files ?? [] };
}

const DIGESTS_AT_ONCE = 100;

/** A digest of the form of today; an older one may lack what the round shows. */
const isPresent = (digest: StoredVisit["digest"]): boolean => digest?.form === DIGEST_FORM;

/** Visits that were kept before there were digests, or with one of an older form, get theirs, one after the other. @param onSome called after each hundred, and at the end where there were any */
export async function addDigests(onSome: () => Promise<void>): Promise<void> {
  let added = 0;
  for (const { id, digest } of await listVisits()) {
    if (isPresent(digest)) continue;
    const read = readVisitFile((await (await begin(["texts"])).objectStore("texts").get(id))?.text ?? "").visit;
    const made = read === null ? null : digestOfVisit(read);
    if (made === null) continue;
    const work = await begin(["visits"], "readwrite");
    const visits = work.objectStore("visits");
    const now = await visits.get(id);
    if (now !== undefined && !isPresent(now.digest)) await visits.put({ ...now, digest: made });
    await work.done;
    added++;
    if (added % DIGESTS_AT_ONCE === 0) await onSome();
  }
  if (added % DIGESTS_AT_ONCE > 0) await onSome();
}

/** Marks a visit as deleted, or takes the mark back: until it is purged nothing is lost. A visit that is worked on after that is kept again. */
export async function markDeleted(id: string, deletedAt: number | null): Promise<void> {
  const work = await begin(["visits"], "readwrite");
  const visits = work.objectStore("visits");
  const visit = await visits.get(id);
  if (visit !== undefined) await visits.put({ ...visit, deletedAt });
  await work.done;
}

/** How long a deleted visit can be taken back, ms. */
export const KEEP_DELETED = 7 * 86_400_000;

/** Does away with visits deleted before an instant (Unix ms), their logs included. @returns how many */
export async function purgeDeleted(before: number): Promise<number> {
  const work = await begin(["visits", "texts", "logs"], "readwrite");
  const all = await work.objectStore("visits").getAll();
  const gone = all.filter((visit) => visit.deletedAt !== null && visit.deletedAt < before);
  for (const { id } of gone) {
    await work.objectStore("visits").delete(id);
    await work.objectStore("texts").delete(id);
    await work.objectStore("logs").delete(id);
  }
  await work.done;
  return gone.length;
}

export type SpaceUsed = { readonly visits: number; readonly quota: number | null; readonly lasts: boolean | null };

/** Bytes of the visits as counted here, and what the browser says of the page's store: bytes it allows, and whether it will not clear it by itself; null where it does not say. */
export async function spaceUsed(): Promise<SpaceUsed> {
  const visits = (await listVisits()).reduce((sum, visit) => sum + visit.bytes, 0);
  const estimate = await navigator.storage?.estimate?.().catch(() => null);
  const lasts = await navigator.storage?.persisted?.().catch(() => null);
  return { visits, quota: estimate?.quota ?? null, lasts: lasts ?? null };
}
