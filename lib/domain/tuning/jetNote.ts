import { APPROXIMATE } from "./jets";
import type { JetCandidate, JetConvention } from "./targetTypes";

/** What to know about a chosen jet's stock and numbering; "" when nothing. */
export function jetNote(
  q: { readonly needed: number; readonly convention: JetConvention },
  chosen: JetCandidate,
  fitted: boolean,
  drawer: JetCandidate | null,
): string {
  const notes: string[] = [];
  if (fitted) notes.push("The fitted jet stays.");
  else if (chosen.free < q.needed)
    notes.push(
      chosen.orderable
        ? `${chosen.free > 0 ? `Only ${chosen.free} of ${q.needed} in the drawer` : "Not in the drawer"}: order ${chosen.size}.${drawer ? ` Nearest in the drawer: ${drawer.size}.` : ""}`
        : `${chosen.free > 0 ? "Too few" : "No"} ${chosen.size} ${chosen.free > 0 ? "are" : "is"} listed in stock or to order.${drawer ? ` Nearest in the drawer: ${drawer.size}.` : ""}`,
    );
  if (chosen.convention !== q.convention) notes.push(`Other numbering than the fitted jet, ${APPROXIMATE}.`);
  return notes.join(" ");
}
