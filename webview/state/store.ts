/** A value that tells who listens when it changes; listeners are called once per turn of the event loop. */
export interface Store<S> {
  get(): S;
  set(change: Partial<S>): void;
  /** Calls back soon after each change, with the state as it then is. @returns a function that ends it */
  on(listener: (now: S) => void): () => void;
}

export function makeStore<S extends object>(first: S): Store<S> {
  let now = first;
  let due = false;
  let listeners: readonly ((now: S) => void)[] = [];
  return {
    get: () => now,
    set(change) {
      if (Object.entries(change).every(([key, value]) => Object.is(now[key as keyof S], value))) return;
      now = { ...now, ...change };
      if (due) return;
      due = true;
      queueMicrotask(() => {
        due = false;
        for (const listener of listeners) {
          try {
            listener(now);
          } catch (error) {
            // One part that fails must not keep the others from following.
            reportError(error);
          }
        }
      });
    },
    on(listener) {
      listeners = [...listeners, listener];
      return () => (listeners = listeners.filter((one) => one !== listener));
    },
  };
}
