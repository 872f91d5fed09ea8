import type { EntryKind, LibraryEntry } from "@/lib/domain/library/entry";
import { familyName } from "@/lib/domain/library/places";

export const KIND_WORDS: Readonly<Record<EntryKind, { one: string; many: string; a: string }>> = {
  access: { one: "access", many: "Accesses", a: "An access" },
  operation: { one: "operation", many: "Operations", a: "An operation" },
  caution: { one: "caution", many: "Cautions", a: "A caution" },
  check: { one: "check", many: "Checks", a: "A check" },
};

export const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);

/** Its minutes, as lists show them; empty for a caution or a check. */
export function minutesText(entry: LibraryEntry): string {
  if (entry.kind === "access") return `${entry.openMinutes} + ${entry.closeMinutes} min`;
  return entry.kind === "operation" ? `${entry.minutes} min` : "";
}

export const familiesText = ({ families }: LibraryEntry): string =>
  families.length === 0 ? "All" : families.map(familyName).join(", ");
