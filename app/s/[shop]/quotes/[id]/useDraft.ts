import { useScreen } from "@/app/_ui/Screen";
import type { DraftScreen, QuoteScreen } from "./shown/screen";

/** A part of what a draft's page shows. `select` answers the same object while nothing in it changed. */
export function useDraft<T>(select: (draft: DraftScreen) => T): T {
  return useScreen(({ draft }: QuoteScreen) => {
    if (!draft) throw new Error("A part of a draft is shown of a quote that is none.");
    return select(draft);
  });
}
