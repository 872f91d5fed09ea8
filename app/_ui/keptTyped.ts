"use client";
import { createContext, useContext, useEffect, useRef, useState } from "react";

/** Whose half-typed forms are kept on this device: a shop and a person. Empty keeps nothing. */
export const KeptForContext = createContext("");

export type Typed = Record<string, string[]>;

const BEGINS = "typed:";
const EVENTS = ["input", "change", "click", "focusout"] as const;

/** What stands in a form. The server sends less of it back, or nothing; a password is typed anew. */
export function typedIn(form: HTMLFormElement): Typed {
  const typed = new Map<string, string[]>();
  // Nobody typed the record that the form is about, and its version.
  const fixed = new Set(
    [...form.querySelectorAll<HTMLInputElement>("input[data-fixed]")].map(({ name }) => name),
  );
  for (const [name, value] of new FormData(form)) {
    if (typeof value !== "string" || fixed.has(name) || /^[$_]|password/i.test(name)) continue;
    const before = typed.get(name);
    if (before) before.push(value);
    else typed.set(name, [value]);
  }
  return Object.fromEntries(typed);
}

/** The browser's storage for this tab; none where it is shut off. */
function storage(): Storage | undefined {
  try {
    return window.sessionStorage;
  } catch {
    return undefined;
  }
}

/** Forgets all that was kept: whoever signs out leaves nothing behind. */
export function forgetTyped(): void {
  const kept = storage();
  for (const key of Object.keys(kept ?? {})) if (key.startsWith(BEGINS)) kept?.removeItem(key);
}

const placeOf = (who: string, name: string) => `${BEGINS}${who}:${name}`;

/**
 * Keeps what is typed in a form on this device, in this tab, until it was sent: over a reload, a link that led nowhere and a
 * session that ended. `name` says which form of which record; without one nothing is kept.
 */
export function useKeptTyped(form: { readonly current: HTMLFormElement | null }, name: string | undefined) {
  const who = useContext(KeptForContext);
  const place = name && who ? placeOf(who, name) : undefined;
  const [found, setFound] = useState<Typed>();
  const sent = useRef<string>(undefined);
  useEffect(() => {
    const box = form.current;
    const kept = place && box ? read(place) : undefined;
    const half = kept && box && JSON.stringify(kept) !== JSON.stringify(typedIn(box)) ? kept : undefined;
    setFound(half);
    if (half)
      for (let fold = box?.closest("details"); fold; fold = fold.parentElement?.closest("details"))
        fold.open = true;
    if (!place || !box) return;
    // What a button changes in a field is drawn after its click.
    const keep = ({ type }: Event) => {
      // The page may stay after a sending: what is typed from then on is new.
      if (type === "input") sent.current = undefined;
      setTimeout(() => {
        if (box.isConnected && sent.current !== place) write(place, typedIn(box));
      });
    };
    for (const event of EVENTS) box.addEventListener(event, keep);
    return () => {
      for (const event of EVENTS) box.removeEventListener(event, keep);
    };
  }, [place, form]);
  return {
    /** What was kept before this page was loaded. */
    found,
    /** It was sent: nothing is left to keep. `leaves` where the page goes with it. */
    drop: (leaves: boolean) => {
      if (!place) return;
      if (leaves) sent.current = place;
      storage()?.removeItem(place);
      setFound(undefined);
    },
  };
}

/** Whether something was half typed into a form that is not drawn yet; `name` is that of `useKeptTyped`. */
export function useHalfTyped(name: string): boolean {
  const who = useContext(KeptForContext);
  const [half, setHalf] = useState(false);
  useEffect(() => {
    const kept = who ? read(placeOf(who, name)) : undefined;
    setHalf(Object.values(kept ?? {}).some((values) => values.some(Boolean)));
  }, [who, name]);
  return half;
}

function read(place: string): Typed | undefined {
  const kept = storage()?.getItem(place);
  return kept ? (JSON.parse(kept) as Typed) : undefined;
}

function write(place: string, typed: Typed): void {
  try {
    storage()?.setItem(place, JSON.stringify(typed));
  } catch {
    // A full storage keeps what it had: the form itself still holds all of it.
  }
}
