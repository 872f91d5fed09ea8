"use client";
import { useRouter } from "next/navigation";
import { createContext, type ReactNode, useContext, useEffect, useState, useSyncExternalStore } from "react";
import { pagesLeftBehind, type ScreenStore, screenStore } from "./screenStore";

const ScreenContext = createContext<ScreenStore<unknown> | undefined>(undefined);

/**
 * A screen whose acts answer what they changed. `view` is all that its parts show of a record, `mark` names it. Parts inside ask
 * for theirs by `useScreen` and are drawn anew when that changes; the rest is as the server drew it.
 */
export function Screen<V>({ view, mark, children }: { view: V; mark: string; children: ReactNode }) {
  const [store, setStore] = useState(() => screenStore<V>(view, mark));
  // The server has drawn the page anew.
  if (store.drawn !== mark) setStore(screenStore<V>(view, mark));
  return <ScreenContext value={store}>{children}</ScreenContext>;
}

/** What a part of a screen shows. `select` answers the same object while nothing in it changed. */
export function useScreen<V, T>(select: (view: V) => T): T {
  const store = useContext(ScreenContext) as ScreenStore<V> | undefined;
  if (!store) throw new Error("A part of a screen stands outside of one.");
  const now = () => select(store.view());
  return useSyncExternalStore(store.subscribe, now, now);
}

/** The screen that a form stands on; undefined on other pages. */
export const useScreenStore = () => useContext(ScreenContext);

/** Pages that are come back to by the browser's own Back and Forward are asked for anew after a change. */
export function FreshOnReturn() {
  const router = useRouter();
  useEffect(() => {
    const back = () => {
      if (pagesLeftBehind()) router.refresh();
    };
    window.addEventListener("popstate", back);
    return () => window.removeEventListener("popstate", back);
  }, [router]);
  return null;
}
