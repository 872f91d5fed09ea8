import { CHANGES, type Changed } from "../domain/sheets/changed";
import { idIn } from "./ids";

/** What recalled bikes are narrowed to. */
export type RecallFilter = { readonly changed: Changed } | { readonly packageId: number };

/** The filter that an address names: “mainJet”, or “package-3”; undefined for none, and for what is none. */
export function recallFilter(asked: string | readonly string[] | undefined): RecallFilter | undefined {
  const text = typeof asked === "string" ? asked : "";
  const changed = CHANGES.find((one) => one === text);
  if (changed) return { changed };
  const packageId = text.startsWith("package-") ? idIn(text.slice("package-".length)) : null;
  return packageId === null ? undefined : { packageId };
}
