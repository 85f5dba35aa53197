import { useSyncExternalStore } from "react";

/** A value that pictures follow without the page being rendered anew. */
export type Observable<T> = { get(): T; set(value: T): void; subscribe(changed: () => void): () => void };

export function makeObservable<T>(first: T): Observable<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set(next) {
      if (Object.is(value, next)) return;
      value = next;
      for (const listener of listeners) listener();
    },
    subscribe(changed) {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
  };
}

export const useObserved = <T>(observable: Observable<T>): T => useSyncExternalStore(observable.subscribe, observable.get, observable.get);
