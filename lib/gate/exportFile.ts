import { createReadStream, statSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import { exportsFolder } from "@/lib/db/folders";

/** A kept export as it is sent, piece by piece; null where the file is not there (any more). */
export function exportStream(name: string): { body: ReadableStream<Uint8Array>; bytes: number } | null {
  if (!/^[0-9a-f]{32}\.zip$/.test(name)) return null;
  const place = join(exportsFolder(), name);
  const found = statSync(place, { throwIfNoEntry: false });
  if (!found?.isFile()) return null;
  const body = Readable.toWeb(createReadStream(place)) as unknown as ReadableStream<Uint8Array>;
  return { body, bytes: found.size };
}
