"use client";
import { Button } from "@/app/_ui/Button";

/** Prints the page; its paper is chosen by the page's own style. */
export function PrintButton() {
  return (
    <Button tone="main" onClick={() => window.print()}>
      Print
    </Button>
  );
}
