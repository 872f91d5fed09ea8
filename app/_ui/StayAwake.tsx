"use client";
import { useEffect } from "react";

/** Keeps the screen from going dark while this page is looked at, where the browser can: hands that hold a spanner touch nothing. */
export function StayAwake(): null {
  useEffect(() => {
    if (!("wakeLock" in navigator)) return;
    let lock: WakeLockSentinel | undefined;
    let left = false;
    const ask = async () => {
      if (document.visibilityState !== "visible" || (lock && !lock.released)) return;
      // A low battery refuses it: the page works as well without.
      const given = await navigator.wakeLock.request("screen").catch(() => undefined);
      if (left) void given?.release();
      else lock = given;
    };
    void ask();
    // The browser takes it back whenever the page is out of sight.
    document.addEventListener("visibilitychange", ask);
    return () => {
      left = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
    };
  }, []);
  return null;
}
