import { fetched } from "../common/chunks";
import type { Reader } from "./types";

/**
 * Of these parts, those that an import added and was taken back: put away with nothing on hand, because their ledger stays. A file
 * that brings one in again takes it out again and books its opening stock anew.
 */
export async function takenBack(reader: Reader, partIds: readonly number[]): Promise<Set<number>> {
  const away = await fetched(partIds, (some) =>
    reader.part.findMany({
      where: { id: { in: some }, active: false, onHandMilli: 0, reservedMilli: 0, onOrderMilli: 0 },
      select: { id: true },
      orderBy: { id: "asc" },
    }),
  );
  const rows = await fetched(
    away.map((part) => part.id),
    (some) =>
      reader.importEntry.findMany({
        where: { noun: "part", nounId: { in: some }, act: "added", run: { undoneAt: { not: null } } },
        select: { nounId: true },
        orderBy: { id: "asc" },
      }),
  );
  return new Set(rows.map((row) => row.nounId));
}
