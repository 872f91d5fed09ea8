"use client";
import { usePathname } from "next/navigation";
import type { Place } from "./Shell";

/** Which place an address lies in: the one whose own address is its longest beginning. */
export function placeOf(places: readonly Place[], path: string): string | undefined {
  let best: Place | undefined;
  for (const place of places) {
    const inside = path === place.href || path.startsWith(`${place.href}/`);
    if (inside && place.href.length > (best?.href.length ?? 0)) best = place;
  }
  return best?.key;
}

export function usePlace(places: readonly Place[], current: string | undefined): string | undefined {
  const path = usePathname();
  return current ?? placeOf(places, path);
}
