"use client";
import { type RefObject, useEffect, useSyncExternalStore } from "react";

/** A control that is fetched when a field that wants it comes into view. */
export interface LiveModule<M> {
  /** Begins the fetch, once; `lost` is called where it does not arrive. */
  readonly ask: (lost?: () => void) => void;
  readonly now: () => M | undefined;
  readonly subscribe: (tell: () => void) => () => void;
}

export function liveModule<M>(fetchIt: () => Promise<M>): LiveModule<M> {
  let module: M | undefined;
  let asked = false;
  const waiting = new Set<() => void>();
  const unsaid = new Set<() => void>();
  return {
    ask(lost) {
      if (lost) unsaid.add(lost);
      if (asked) return;
      asked = true;
      fetchIt().then(
        (fetched) => {
          module = fetched;
          unsaid.clear();
          for (const tell of waiting) tell();
        },
        () => {
          // No connection: the plain control stays, and the next field that comes into view asks again.
          asked = false;
          for (const say of unsaid) say();
          unsaid.clear();
        },
      );
    },
    now: () => module,
    subscribe(tell) {
      waiting.add(tell);
      return () => waiting.delete(tell);
    },
  };
}

/**
 * The control, once it is there. Until then, without scripts, and where the fetch fails, the field is the plain control that
 * the server sent: what is typed there counts as well.
 */
export function useLive<M>(live: LiveModule<M>, plain: RefObject<HTMLElement | null>): M | undefined {
  useEffect(() => {
    const control = plain.current;
    if (live.now() || !control) return;
    const watch = new IntersectionObserver(
      (seen) => {
        if (!seen.some((one) => one.isIntersecting)) return;
        watch.disconnect();
        live.ask();
      },
      // A little ahead, so that it seldom changes under somebody's eyes.
      { rootMargin: "400px" },
    );
    watch.observe(control);
    return () => watch.disconnect();
  }, [live, plain]);
  return useSyncExternalStore(live.subscribe, live.now, () => undefined);
}
