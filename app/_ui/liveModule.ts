"use client";
import { type RefObject, useEffect, useEffectEvent, useSyncExternalStore } from "react";
import { type EarlyField, sent } from "./useEarlyChanges";

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
 * the server sent: what is typed there counts as well, and `early` is told what was put in before the page was live.
 */
export function useLive<M>(
  live: LiveModule<M>,
  plain: RefObject<HTMLInputElement | HTMLSelectElement | null>,
  early: (value: string) => void,
): M | undefined {
  const tell = useEffectEvent(early);
  useEffect(() => {
    const field = plain.current as EarlyField | null;
    if (field && field.value !== sent(field)) tell(field.value);
  }, [plain]);
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
