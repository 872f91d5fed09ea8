import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { binText, fetchFrom, type Lying, putInto, type Share } from "@/lib/domain/stock/bins";
import { quantityText } from "@/lib/schemas/quantity";

export interface PartToMove {
  id: number;
  code: string;
  unit: string;
  /** Its usual bin. */
  bin: string;
}

export interface Where {
  /** This bin and no other. */
  bin?: string | undefined;
  /** What comes out is looked for here first, then in its usual bin and the others. */
  ratherFrom?: string | undefined;
}

/** Where a part lies, bins that hold none of it left out. */
export const LIES = {
  where: { onHandMilli: { gt: 0 } },
  select: { bin: true, onHandMilli: true },
  orderBy: { bin: "asc" },
} satisfies Prisma.Part$binsArgs;

/** Where a part lies now, bins that hold none of it left out. */
export async function lyingIn(tx: Pick<ShopTx, "partBin">, partId: number): Promise<Lying[]> {
  return tx.partBin.findMany({ ...LIES, where: { ...LIES.where, partId } });
}

/** How much of a part lies in one bin, in thousandths. */
export async function inBinIn(tx: Pick<ShopTx, "partBin">, partId: number, bin: string): Promise<number> {
  const row = await tx.partBin.findUnique({
    where: { partId_bin: { partId, bin } },
    select: { onHandMilli: true },
  });
  return row?.onHandMilli ?? 0;
}

/**
 * Into or out of which bins a signed quantity goes. In: the named bin, else the usual one. Out: the named bin alone,
 * else the usual one and then the fullest others. The shares have the quantity's sign and add up to it.
 */
export async function sharesAmongBins(
  tx: ShopTx,
  part: PartToMove,
  quantityMilli: number,
  where: Where,
): Promise<Share[]> {
  if (quantityMilli > 0) {
    const bin = where.bin ?? where.ratherFrom;
    if (bin !== undefined) return [{ bin: await knownBinIn(tx, part, bin), quantityMilli }];
    const bins = part.bin === "" ? await lyingIn(tx, part.id) : [];
    return [{ bin: putInto(bins, part.bin), quantityMilli }];
  }
  const lying = await lyingIn(tx, part.id);
  if (where.bin === undefined)
    return fetchFrom(lying, part.bin, -quantityMilli, where.ratherFrom).map((share) => ({
      bin: share.bin,
      quantityMilli: -share.quantityMilli,
    }));
  const bin = await knownBinIn(tx, part, where.bin);
  const there = lying.find((one) => one.bin === bin)?.onHandMilli ?? 0;
  if (there < -quantityMilli) throw notInBin(part, bin, there, lying);
  return [{ bin, quantityMilli }];
}

/** Puts into a bin or takes out of it, in the same transaction as the move it is the projection of. */
export async function changeBinIn(tx: ShopTx, part: PartToMove, bin: string, byMilli: number): Promise<void> {
  if (byMilli > 0) {
    await tx.partBin.upsert({
      where: { partId_bin: { partId: part.id, bin } },
      create: { partId: part.id, bin, onHandMilli: byMilli },
      update: { onHandMilli: { increment: byMilli } },
      select: { id: true },
    });
    return;
  }
  const { count } = await tx.partBin.updateMany({
    where: { partId: part.id, bin, onHandMilli: { gte: -byMilli } },
    data: { onHandMilli: { decrement: -byMilli } },
  });
  if (count === 1) return;
  const lying = await lyingIn(tx, part.id);
  throw notInBin(part, bin, lying.find((one) => one.bin === bin)?.onHandMilli ?? 0, lying);
}

/** A bin's name as the shop writes it: "b2" is "B2" where there is such a bin. One that is not known is new. */
export async function knownBinIn(tx: ShopTx, part: { bin: string }, typed: string): Promise<string> {
  const bin = typed.trim();
  if (bin === "" || bin === part.bin) return bin;
  if (await tx.partBin.findFirst({ where: { bin }, select: { id: true }, orderBy: { id: "asc" } }))
    return bin;
  const folded = bin.toLowerCase();
  return (await binNamesIn(tx)).find((name) => name.toLowerCase() === folded) ?? bin;
}

/** The names of bins in use: where something lies, or where a part in use has its place. */
export async function binNamesIn(tx: Pick<ShopTx, "part" | "partBin">): Promise<string[]> {
  const [lying, usual] = await Promise.all([
    tx.partBin.groupBy({
      by: ["bin"],
      where: { bin: { not: "" }, onHandMilli: { gt: 0 } },
      orderBy: { bin: "asc" },
    }),
    tx.part.groupBy({ by: ["bin"], where: { bin: { not: "" }, active: true }, orderBy: { bin: "asc" } }),
  ]);
  return inOrder([...usual, ...lying].map((row) => row.bin));
}

/** So many names are offered while a bin is typed; any other may be typed too. */
const MOST_OFFERED = 150;

/** The names of bins to offer while one is typed, A2 before A10: of very many, those that most parts have their place in. */
export async function binsToOffer(db: Pick<ShopTx, "part" | "partBin">): Promise<string[]> {
  const [usual, lying] = await Promise.all([
    db.part.groupBy({
      by: ["bin"],
      where: { bin: { not: "" }, active: true },
      _count: { id: true },
      orderBy: [{ _count: { id: "desc" } }, { bin: "asc" }],
      take: MOST_OFFERED,
    }),
    db.partBin.groupBy({
      by: ["bin"],
      where: { bin: { not: "" }, onHandMilli: { gt: 0 } },
      _count: { id: true },
      orderBy: [{ _count: { id: "desc" } }, { bin: "asc" }],
      take: MOST_OFFERED,
    }),
  ]);
  const counted = [...usual, ...lying].sort((a, b) => b._count.id - a._count.id);
  const names = [...new Set(counted.map((row) => row.bin))].slice(0, MOST_OFFERED);
  return inOrder(names);
}

const BY_NUMBER = new Intl.Collator("en", { numeric: true });

/** A2 before A10; names that sort alike by their letters, so that there is one order. */
export const inBinOrder = (a: string, b: string): number =>
  BY_NUMBER.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);

/** Bins each once, A2 before A10. */
const inOrder = (bins: readonly string[]): string[] => [...new Set(bins)].sort(inBinOrder);

function notInBin(part: PartToMove, bin: string, there: number, lying: readonly Lying[]): Refusal {
  const others = lying
    .filter((one) => one.bin !== bin)
    .map((one) => `${quantityText(one.onHandMilli, part.unit)} in ${binText(one.bin)}`)
    .join(", ");
  const has = there > 0 ? `Only ${quantityText(there, part.unit)}` : "None";
  return new Refusal(
    `${has} of ${part.code} lies in ${binText(bin)}.`,
    others ? `There is ${others}: take it from there, or count the bin.` : "Count the bin.",
    { quantity: `At most ${quantityText(there, part.unit)}.` },
    "conflict",
  );
}
