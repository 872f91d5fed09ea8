import type { LibraryEntry } from "@/lib/domain/library/entry";
import { LibraryEntrySchema } from "@/lib/schemas/library";
import { hashOf } from "../common/hash";

/** An entry out of the database. It went in through a schema, so a failure here is a damaged record. */
export function storedEntry(json: unknown): LibraryEntry {
  return LibraryEntrySchema.parse(json);
}

/** Tells one text of an entry from others, the same in every shop. */
export const entryPrint = (entry: LibraryEntry): string => hashOf(entry).slice(0, 16);
