"use client";
import { useEffect } from "react";
import { KEPT_CACHE } from "@/lib/domain/offline/requests";

/**
 * Where somebody is asked to sign in, whose device it is has to be shown anew: the cards that it keeps are let go of, and fetched
 * again for whoever signs in. What waits to be sent stays: it goes with the person it belongs to, or is cleared for another.
 */
export function CardsAway(): null {
  useEffect(() => {
    if ("caches" in window) void caches.delete(KEPT_CACHE);
  }, []);
  return null;
}
