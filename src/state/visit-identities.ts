import type { PickedFile } from "../worker/messages";

/** Which kept visit a set of files belongs to, and what of it this tab saw last. */
export type VisitIdentity = {
  readonly id: string;
  /** 0 while it was never saved. */
  readonly revision: number;
  /** What was saved last, for comparison; null where that is not known. */
  readonly content: string | null;
};

/** A visit is known by the list of its files: read again with other choices it stays the same list, and so the same visit. */
export type VisitIdentities = {
  of(files: readonly PickedFile[]): VisitIdentity;
  note(files: readonly PickedFile[], identity: VisitIdentity): void;
};

export function makeIdentities(makeId: () => string): VisitIdentities {
  const known = new WeakMap<readonly PickedFile[], VisitIdentity>();
  return {
    of(files) {
      const identity = known.get(files) ?? { id: makeId(), revision: 0, content: null };
      known.set(files, identity);
      return identity;
    },
    note: (files, identity) => void known.set(files, identity),
  };
}
