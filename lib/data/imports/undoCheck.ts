import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { fetched } from "../common/chunks";
import { hangingOn } from "./hanging";
import type { Entry } from "./types";

type CustomerRow = Prisma.CustomerGetPayload<object>;
type PartRow = Prisma.PartGetPayload<object>;
type BikeRow = Prisma.BikeGetPayload<{
  include: { customer: { select: { name: true } }; modelCard: { select: { make: true; model: true } } };
}>;

export interface Taken<T> {
  readonly entry: Entry;
  readonly row: T;
}

/** What an import left that still stands, and what speaks against taking it back. */
export interface Standing {
  readonly customers: readonly Taken<CustomerRow>[];
  readonly bikes: readonly Taken<BikeRow>[];
  readonly parts: readonly Taken<PartRow>[];
  readonly cards: readonly number[];
  readonly known: readonly Entry[];
  readonly problems: readonly string[];
}

export async function checkUndoIn(tx: ShopTx, entries: readonly Entry[]): Promise<Standing> {
  const problems: string[] = [];
  const stands = async <T extends { id: number; version: number }>(
    noun: "customer" | "bike" | "part",
    find: (ids: number[]) => Promise<T[]>,
    name: (row: T) => string,
  ): Promise<Taken<T>[]> => {
    const own = entries.filter((entry) => entry.noun === noun && entry.act !== "known");
    const rows = new Map(
      (
        await fetched(
          own.map((entry) => entry.nounId),
          find,
        )
      ).map((row) => [row.id, row]),
    );
    problems.push(...(await mergedAmong(tx, noun, own, rows)));
    const added = own.filter((entry) => entry.act === "added" && rows.has(entry.nounId));
    const hanging = await hangingOn(
      tx,
      noun,
      added.map((entry) => entry.nounId),
    );
    return own.flatMap((entry) => {
      const row = rows.get(entry.nounId);
      if (!row) return [];
      const hangs = entry.act === "added" ? hanging.get(row.id) : undefined;
      if (hangs) problems.push(`${name(row)} has ${hangs}`);
      else if (row.version !== entry.version) problems.push(`${name(row)} was changed since`);
      return [{ entry, row }];
    });
  };
  const customers = await stands(
    "customer",
    (ids): Promise<CustomerRow[]> =>
      tx.customer.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } }),
    (row) => row.name,
  );
  const bikes = await stands(
    "bike",
    (ids): Promise<BikeRow[]> =>
      tx.bike.findMany({
        where: { id: { in: ids } },
        include: { customer: { select: { name: true } }, modelCard: { select: { make: true, model: true } } },
        orderBy: { id: "asc" },
      }),
    (row) => [row.modelCard.make, row.modelCard.model, row.plate].filter(Boolean).join(" "),
  );
  const parts = await stands(
    "part",
    (ids): Promise<PartRow[]> => tx.part.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } }),
    (row) => row.code,
  );
  problems.push(...(await movedSince(tx, parts)));
  return {
    customers,
    bikes,
    parts,
    cards: entries.filter((entry) => entry.noun === "modelCard").map((entry) => entry.nounId),
    known: entries.filter((entry) => entry.act === "known"),
    problems,
  };
}

async function mergedAmong(
  tx: ShopTx,
  noun: string,
  own: readonly Entry[],
  rows: ReadonlyMap<number, unknown>,
): Promise<string[]> {
  const gone = own.filter((entry) => !rows.has(entry.nounId)).map((entry) => entry.nounId);
  const merged = await fetched(gone, (some) =>
    tx.merged.findMany({
      where: { noun, goneId: { in: some } },
      select: { name: true },
      orderBy: { goneId: "asc" },
    }),
  );
  return merged.map((row) => `${row.name} was merged with another`);
}

/** Stock that moved otherwise than by the opening the import booked. */
async function movedSince(tx: ShopTx, parts: readonly Taken<PartRow>[]): Promise<string[]> {
  const counted = await fetched(
    parts.map(({ row }) => row.id),
    async (some) =>
      tx.move.groupBy({
        by: ["partId"],
        where: { partId: { in: some }, kind: { not: "betweenBins" } },
        _count: true,
      }),
  );
  const moves = new Map(counted.map((row) => [row.partId, row._count]));
  return parts.flatMap(({ entry, row }) => {
    const opened = entry.openedMilli ?? 0;
    const own = opened > 0 ? 1 : 0;
    const asked = entry.act === "added" || opened > 0;
    const others = (moves.get(row.id) ?? 0) - own;
    if (!asked || others <= 0) return [];
    return [`${row.code} has ${others} more ${others === 1 ? "move" : "moves"} in stock`];
  });
}
