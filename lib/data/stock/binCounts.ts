import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { BinListQuery } from "@/lib/schemas/stockCounts";
import { fetched } from "../common/chunks";
import { binNamesIn, inBinOrder, knownBinIn } from "./lying";
import { demandQuantity } from "./quantity";

/** So many bins stand on a page. */
const ON_PAGE = 50;
/** More parts in one bin are no bin; those beyond are not counted. Judgement. */
const MOST_IN_BIN = 2_000;
/** So many parts are counted at once: about what one person counts before something moves (judgement). */
export const MOST_ON_SHEET = 60;

/**
 * A page of the bins in use, A2 before A10: how many parts have their place in each, how many lie there, and when each was counted
 * last. `q` narrows to names that hold it; `after` is the name of the last one on the page before.
 */
export async function listBins(shop: ShopHandle, { q = "", after = "" }: Partial<BinListQuery> = {}) {
  const wanted = q.toLowerCase();
  const names = (await binNamesIn(shop.read)).filter(
    (bin) => bin.toLowerCase().includes(wanted) && (after === "" || inBinOrder(after, bin) < 0),
  );
  const page = names.slice(0, ON_PAGE);
  const here = { bin: { in: page } };
  const [usual, lying, counts] = await Promise.all([
    shop.read.part.groupBy({
      by: ["bin"],
      where: { active: true, ...here },
      _count: { id: true },
      orderBy: { bin: "asc" },
    }),
    shop.read.partBin.groupBy({
      by: ["bin"],
      where: { onHandMilli: { gt: 0 }, ...here },
      _count: { id: true },
      orderBy: { bin: "asc" },
    }),
    shop.read.countSheet.groupBy({
      by: ["bin"],
      where: { state: "approved", ...here },
      _max: { approvedAt: true },
    }),
  ]);
  const last = new Map(counts.map((row) => [row.bin, row._max.approvedAt]));
  const placed = new Map(usual.map((row) => [row.bin, row._count.id]));
  const there = new Map(lying.map((row) => [row.bin, row._count.id]));
  return {
    rows: page.map((bin) => ({
      bin,
      parts: placed.get(bin) ?? 0,
      lying: there.get(bin) ?? 0,
      countedAt: last.get(bin) ?? null,
    })),
    next: names.length > ON_PAGE ? (page.at(-1) ?? null) : null,
  };
}

/** Counts that are not finished, the newest first. */
export async function listOpenCounts(shop: ShopHandle) {
  return shop.read.countSheet.findMany({
    where: { state: { in: ["open", "counted"] } },
    select: { id: true, bin: true, state: true, startedAt: true, countedBy: true },
    orderBy: { id: "desc" },
    take: 50,
  });
}

/**
 * Begins the count of a bin: the parts that lie there or have their place there. Of a bin with more than one sheet holds, those that
 * were not counted for longest. A bin under count is not begun twice. Returns the sheet's id.
 */
export async function startCount(shop: ShopHandle, named: string, key?: string): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "began a count", { named, key }, async () => {
      const bin = await knownBinIn(tx, { bin: "" }, named);
      if (bin === "")
        throw new Refusal("No bin is named.", "Choose a bin, or type what is written on it.", {
          bin: "Say which bin.",
        });
      const going = await tx.countSheet.findFirst({
        where: { bin, state: { in: ["open", "counted"] } },
        select: { id: true },
        orderBy: { id: "desc" },
      });
      if (going) return going.id;
      const parts = await tx.part.findMany({
        where: {
          OR: [{ bin, active: true }, { bins: { some: { bin, onHandMilli: { gt: 0 } } } }],
        },
        select: { id: true },
        orderBy: { code: "asc" },
        take: MOST_IN_BIN,
      });
      if (parts.length === 0)
        throw new Refusal(
          `No part lies in bin ${bin}.`,
          "Choose a bin from the list. What lies in a bin that is not on it is moved there on its own page.",
          {
            bin: "Nothing lies there.",
          },
        );
      const sheet = await longestUncountedIn(
        tx,
        parts.map((part) => part.id),
      );
      const made = await tx.countSheet.create({
        data: { bin, startedAt: shop.now, lines: { create: sheet.map((partId) => ({ partId })) } },
        select: { id: true },
      });
      await audit(tx, shop, "began", "count", made.id, { bin, parts: sheet.length });
      return made.id;
    }),
  );
}

/** As many parts as a sheet holds: never counted ones first, then those counted longest ago; among equals in the order given. */
async function longestUncountedIn(tx: ShopTx, partIds: readonly number[]): Promise<number[]> {
  if (partIds.length <= MOST_ON_SHEET) return [...partIds];
  const rows = await fetched(partIds, (some) =>
    tx.countLine.groupBy({
      by: ["partId"],
      where: { partId: { in: some }, countedMilli: { not: null }, sheet: { state: "approved" } },
      _max: { sheetId: true },
      orderBy: { partId: "asc" },
    }),
  );
  const last = new Map(rows.map((row) => [row.partId, row._max.sheetId ?? 0]));
  return [...partIds].sort((a, b) => (last.get(a) ?? 0) - (last.get(b) ?? 0)).slice(0, MOST_ON_SHEET);
}

/** A count. While it is open nothing of the ledger is in it: who counts must not see what should be there. */
export async function getCount(shop: ShopHandle, id: number) {
  const sheet = await shop.read.countSheet.findUnique({
    where: { id },
    select: {
      id: true,
      bin: true,
      state: true,
      startedAt: true,
      countedAt: true,
      countedBy: true,
      approvedAt: true,
      approvedBy: true,
      version: true,
      lines: {
        select: {
          id: true,
          partId: true,
          countedMilli: true,
          seenMilli: true,
          leftOut: true,
          part: {
            select: {
              code: true,
              name: true,
              unit: true,
              onHandMilli: true,
              reservedMilli: true,
              averageE4: true,
              costE4: true,
            },
          },
        },
        orderBy: { part: { code: "asc" } },
        take: 500,
      },
    },
  });
  if (!sheet) return null;
  const blind = sheet.state === "open";
  return {
    ...sheet,
    lines: sheet.lines.map(({ part, seenMilli, ...line }) => {
      const varianceMilli =
        blind || line.countedMilli === null || seenMilli === null ? null : line.countedMilli - seenMilli;
      const unitE4 = part.averageE4 ?? part.costE4;
      return {
        ...line,
        part: { code: part.code, name: part.name, unit: part.unit },
        seenMilli: blind ? null : seenMilli,
        varianceMilli,
        worthE4:
          varianceMilli === null || unitE4 === null ? null : Math.round((varianceMilli * unitE4) / 1000),
        /** What of the reserved would be missing. */
        missingMilli:
          sheet.state !== "counted" || varianceMilli === null
            ? 0
            : Math.max(0, part.reservedMilli - (part.onHandMilli + varianceMilli)),
      };
    }),
  };
}

export interface Counted {
  sheetId: number;
  version: number;
  counted: readonly { partId: number; countedMilli: number }[];
  key?: string | undefined;
}

/** Takes what was counted, and beside each what the ledger says lies in the bin at this moment. Parts that were not counted stay out. */
export async function enterCount(shop: ShopHandle, input: Counted): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "entered a count", input, async () => {
      const lines = await tx.countLine.findMany({
        where: { sheetId: input.sheetId },
        select: {
          id: true,
          partId: true,
          sheet: { select: { bin: true } },
          part: { select: { code: true, unit: true } },
        },
        orderBy: { id: "asc" },
      });
      if (input.counted.length === 0)
        throw new Refusal("Nothing is counted yet.", "Enter what lies in the bin; 0 where it is empty.");
      await demandOne(
        tx.countSheet.updateMany({
          where: { id: input.sheetId, state: "open", version: input.version },
          data: { state: "counted", countedAt: shop.now, countedBy: shop.by.name, version: { increment: 1 } },
        }),
        () => changedCount(),
      );
      const there = await inBin(tx, lines[0]?.sheet.bin ?? "");
      for (const { partId, countedMilli } of input.counted) {
        const line = lines.find((each) => each.partId === partId);
        if (!line) throw new Refusal("A part is not on this count.", "Count it on its own page.");
        if (countedMilli !== 0)
          try {
            demandQuantity(countedMilli, line.part.unit);
          } catch (cause) {
            if (!(cause instanceof Refusal)) throw cause;
            throw new Refusal(`${line.part.code}: ${cause.message}`, cause.remedy, {
              [`counted.${partId}`]: cause.remedy,
            });
          }
        await tx.countLine.update({
          where: { id: line.id },
          data: { countedMilli, seenMilli: there.get(partId) ?? 0 },
          select: { id: true },
        });
      }
      await audit(tx, shop, "counted", "count", input.sheetId, { lines: input.counted.length });
      return input.sheetId;
    }),
  );
}

/** What lies in a bin, by part. */
async function inBin(tx: ShopTx, bin: string): Promise<Map<number, number>> {
  const rows = await tx.partBin.findMany({
    where: { bin, onHandMilli: { gt: 0 } },
    select: { partId: true, onHandMilli: true },
    orderBy: { partId: "asc" },
  });
  return new Map(rows.map((row) => [row.partId, row.onHandMilli]));
}

/** Sends a count back to be done again, blind as the first time. */
export async function countAgain(
  shop: ShopHandle,
  input: { sheetId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.countSheet.updateMany({
        where: { id: input.sheetId, state: "counted", version: input.version },
        data: { state: "open", countedAt: null, countedBy: "", version: { increment: 1 } },
      }),
      () => changedCount(),
    );
    await tx.countLine.updateMany({
      where: { sheetId: input.sheetId },
      data: { countedMilli: null, seenMilli: null },
    });
    await audit(tx, shop, "sent back", "count", input.sheetId);
  });
}

/** Gives a count up: nothing of it reaches the ledger. */
export async function dropCount(
  shop: ShopHandle,
  input: { sheetId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.countSheet.updateMany({
        where: { id: input.sheetId, state: { in: ["open", "counted"] }, version: input.version },
        data: { state: "dropped", version: { increment: 1 } },
      }),
      () => changedCount(),
    );
    await audit(tx, shop, "dropped", "count", input.sheetId);
  });
}

export const changedCount = () =>
  new Refusal("This count has just changed.", "Reload it to see how it stands.", {}, "conflict");
