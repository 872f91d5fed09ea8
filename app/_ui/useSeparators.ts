"use client";
import { type RefObject, useEffect } from "react";

/**
 * A dot, stroke, dash, colon or blank typed after a digit leads to the next place, as people type dates: without it “1.3.”
 * would be the thirteenth. After a place that was full and led on by itself it does nothing.
 */
export function useSeparators(box: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const field = box.current;
    if (!field) return;
    let typedIn: EventTarget | null = null;
    const heard = (event: InputEvent) => {
      const { data, target } = event;
      if (data && /^\d$/.test(data)) typedIn = target;
      if (!data || !/^[./\-:, T]$/.test(data) || typedIn !== target) return;
      typedIn = null;
      const places = [...field.querySelectorAll<HTMLElement>("[data-place]")];
      places[places.indexOf(target as HTMLElement) + 1]?.focus();
    };
    field.addEventListener("beforeinput", heard);
    return () => field.removeEventListener("beforeinput", heard);
  }, [box]);
}
