"use client";
import { useEffect, useState } from "react";
import type { DeviceState } from "@/app/_ui/offline/deviceContext";

/** How long between two looks whether the server answers. */
const LOOK_MS = 15_000;
const PATIENCE_MS = 4_000;

/**
 * Whether the live card can be had again: once nothing waits any more and the server answers, the page goes there by itself,
 * unless something is being typed. What was half typed is kept, and stands there as well.
 */
export function useWayBack(live: string, state: DeviceState): { open: boolean } {
  const [open, setOpen] = useState(false);
  // What is told is read first: that the person no longer belongs to the shop, say, where no card would open.
  const clear = state.ready && !state.sending && state.acts.length === 0 && state.told === null;
  useEffect(() => {
    let gone = false;
    // Come here because the connection was slow: it is not tried again at once.
    const slow = new URLSearchParams(location.search).has("slow");
    const look = async () => {
      if (!navigator.onLine || document.visibilityState !== "visible") return setOpen(false);
      const answers = await fetch("/api/health/live", {
        cache: "no-store",
        signal: AbortSignal.timeout(PATIENCE_MS),
      }).then(
        (answer) => answer.ok,
        () => false,
      );
      if (gone) return;
      setOpen(answers);
      const typing = document.activeElement?.matches("input, textarea, select") ?? false;
      if (answers && clear && !typing) location.replace(live + location.search.replace(/[?&]slow=1/, ""));
    };
    if (!slow) void look();
    const timer = setInterval(() => void look(), LOOK_MS);
    const now = () => void look();
    window.addEventListener("online", now);
    return () => {
      gone = true;
      clearInterval(timer);
      window.removeEventListener("online", now);
    };
  }, [live, clear]);
  return { open };
}
