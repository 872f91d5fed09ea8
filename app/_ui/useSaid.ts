"use client";
import { usePathname } from "next/navigation";
import { useEffect, useEffectEvent } from "react";

/** Reads, once, what an action left to be said on the page it sent the person to (the `said` cookie). */
export function useSaid(say: (text: string) => void): void {
  const path = usePathname();
  const heard = useEffectEvent(say);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new path is when there may be something to say
  useEffect(() => {
    const found = document.cookie.split("; ").find((part) => part.startsWith("said="));
    if (!found) return;
    // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is not everywhere yet
    document.cookie = "said=; path=/; max-age=0; samesite=lax";
    heard(decodeURIComponent(found.slice("said=".length)));
  }, [path]);
}
