import type { Pick, Picks } from "@/lib/schemas/picks";

export type PickFrom = "customers" | "bikes" | "cards" | "parts" | "parts?families=yes" | "buyers";

/** A row in one line, as it stands in the field once chosen. */
export const rowText = ({ label, sub }: Pick): string => [label, sub].filter(Boolean).join(", ");

/** Asks the server for rows that hold the words; null where it gave no answer. */
export async function askRows(
  shop: string,
  from: PickFrom,
  text: string,
  signal: AbortSignal,
): Promise<Picks | null> {
  try {
    const path = `/api/s/${shop}/pick/${from}`;
    const answer = await fetch(`${path}${path.includes("?") ? "&" : "?"}q=${encodeURIComponent(text)}`, {
      signal,
    });
    return answer.ok ? ((await answer.json()) as Picks) : null;
  } catch {
    // No connection, or more was typed meanwhile: the field says so, or asks again.
    return null;
  }
}
