"use client";
import { usePathname, useSearchParams } from "next/navigation";
import { useEffect, useEffectEvent } from "react";
import { useToasts } from "./toastContext";

function takeSaid(): string | undefined {
  const found = document.cookie.split("; ").find((part) => part.startsWith("said="));
  if (!found) return undefined;
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is not everywhere yet
  document.cookie = "said=; path=/; max-age=0; samesite=lax";
  return decodeURIComponent(found.slice("said=".length));
}

/** Says, once, what an action left in the `said` cookie for the page it sent the person to. */
export function Said(): null {
  const place = `${usePathname()}?${useSearchParams()}`;
  const toasts = useToasts();
  const listen = useEffectEvent(() => {
    const text = takeSaid();
    if (text) toasts.say({ text });
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new place is when there may be something to say
  useEffect(() => listen(), [place]);
  useEffect(() => {
    // Sent back to the same address nothing else changes; only newer browsers tell of the cookie.
    if (!("cookieStore" in window)) return;
    const changed = () => listen();
    window.cookieStore.addEventListener("change", changed);
    return () => window.cookieStore.removeEventListener("change", changed);
  }, []);
  return null;
}
