import { createHash } from "node:crypto";
import { deltaOf, type Plain } from "@/lib/domain/delta";
import type { ScreenChange } from "@/lib/schemas/formState";

/** What a screen shows of its record, as plain data. */
export interface ScreenView {
  /** What the server alone draws of it: where this changes, the page is drawn anew. */
  readonly served: string;
  /** Its path, where an act that leads there may stay instead. */
  readonly at?: string;
}

/** Most bytes of a change; with what goes round it, an answer stays within 8 KB. What is more is a page's. */
export const MOST_OF_CHANGE = 7_000;

/** A view as a browser has it: without what JSON leaves out, moments as text. */
export const asSent = <V extends ScreenView>(view: V): V => JSON.parse(JSON.stringify(view));

const plain = (view: ScreenView) => asSent(view) as unknown as Plain;

/** A short name of all that a screen shows: two screens of one mark show the same. */
export const markOf = (view: ScreenView): string =>
  createHash("sha256").update(JSON.stringify(view)).digest("base64url").slice(0, 16);

/**
 * What turns one view of a screen into another: null where the page has to be drawn anew, since the server alone draws what
 * changed, or since it is too much for a change.
 */
export function changeOf(before: ScreenView, after: ScreenView): ScreenChange | null {
  if (before.served !== after.served) return null;
  const delta = deltaOf(plain(before), plain(after));
  if (Buffer.byteLength(JSON.stringify(delta)) > MOST_OF_CHANGE) return null;
  return { from: markOf(before), to: markOf(after), delta };
}
