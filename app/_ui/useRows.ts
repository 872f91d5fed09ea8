"use client";
import { useEffect, useState } from "react";
import type { Pick } from "@/lib/schemas/picks";
import { askRows, type PickFrom } from "./pickRows";

/** Typing goes on for some letters: the server is asked once it pauses. */
const PAUSE_MS = 150;

export interface Rows {
  readonly rows: readonly Pick[];
  readonly more: boolean;
  /** For which words these are; others are asked for while it differs from what is typed. */
  readonly text: string;
  readonly failed: boolean;
}

/** The rows for what is typed, `newest` where nothing is. While `asleep` nothing is asked. */
export function useRows(
  shop: string,
  from: PickFrom,
  typed: string,
  newest: readonly Pick[],
  asleep: boolean,
): Rows & { readonly looking: boolean } {
  const text = typed.trim();
  const [found, setFound] = useState<Rows>({ rows: [], more: false, text: "", failed: false });
  useEffect(() => {
    if (text === "" || asleep) return;
    const leave = new AbortController();
    const timer = setTimeout(async () => {
      const answer = await askRows(shop, from, text, leave.signal);
      if (leave.signal.aborted) return;
      setFound(answer ? { ...answer, text, failed: false } : { rows: [], more: false, text, failed: true });
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
      leave.abort();
    };
  }, [shop, from, text, asleep]);
  if (text === "" || asleep) return { rows: newest, more: false, text, failed: false, looking: false };
  return { ...found, looking: found.text !== text };
}
