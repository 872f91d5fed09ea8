"use client";
import { type ReactNode, useEffect, useRef } from "react";
import { KeptForContext } from "./keptTyped";

/** Says for whom half-typed forms within are kept. When another person signs in here, the page is loaded anew. */
export function KeptFor({ who, children }: { who: string; children: ReactNode }) {
  const first = useRef(who);
  useEffect(() => {
    if (first.current !== who) window.location.reload();
  }, [who]);
  return <KeptForContext value={who}>{children}</KeptForContext>;
}
