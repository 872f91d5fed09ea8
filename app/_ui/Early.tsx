"use client";
import { useEffect } from "react";
import { earlyChanges, tellChanges } from "./early";

/** What is typed, ticked or chosen before a page is live counts: once the page is, it is told of it. Stands after all of the page. */
export function Early() {
  useEffect(() => {
    void tellChanges(earlyChanges());
  }, []);
  return null;
}
