"use client";
import { useEffect, useState } from "react";

/** Sooner than this an answer needs no word that it is awaited. */
const LATER_MS = 1000;

/** True once something has been going on for a second. */
export function useSlow(going: boolean): boolean {
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    if (!going) return;
    const timer = setTimeout(() => setSlow(true), LATER_MS);
    return () => {
      clearTimeout(timer);
      setSlow(false);
    };
  }, [going]);
  return slow;
}
