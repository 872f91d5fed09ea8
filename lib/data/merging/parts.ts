import { demandOne } from "@/lib/db/guard";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { openOf } from "@/lib/domain/stock/orders";
import { quantityText } from "@/lib/schemas/quantity";
import { auditChange } from "../common/changes";
import { keptInstead, mergedOrMissing } from "../common/merged";
import { partKey } from "../imports/parts";
import { PLACED } from "../stock/orderLines";
import { counted, joinFields, type Plains } from "./fields";
import { moveStockIn } from "./partStock";
import { moveSupplyIn } from "./partSupply";
import { auditMerge, changedSince, demandMergeable, noteMergeIn } from "./record";
import type { MergePreview, Pair, Side } from "./types";

type Reads = Pick<
  ShopTx,
  "part" | "reservation" | "orderLine" | "countLine" | "partSupplier" | "partSubstitute" | "photo" | "merged"
>;

const NAMES: Readonly<Record<string, string>> = {
  family: "Family",
  sizeMilli: "Size, thousandths",
  convention: "Jet numbers are",
  supplier: "Supplier",
  supplierCode: "Supplier's code",
  bin: "Usual bin",
  leadDays: "Days to come",
  taxCategory: "Tax mark",
  pointMilli: "Reorder point, thousandths",
  topMilli: "Fill up to, thousandths",
};
/** What only those see who may see costs: taken over where it is blank, and not shown. */
const UNSHOWN: Readonly<Record<string, string>> = { costE4: "Cost", priceE4: "Price" };

const openLines = (partId: number) => ({
  partId,
  order: { state: { in: ["draft", ...PLACED] as ("draft" | "ordered" | "partReceived")[] } },
});

/** What merging one part into another would move and fill. Null where one of them is not there. */
export async function previewParts(reads: Reads, keptId: number, goneId: number) {
  const [kept, gone] = await Promise.all([
    reads.part.findUnique({ where: { id: keptId } }),
    reads.part.findUnique({ where: { id: goneId } }),
  ]);
  if (!kept || !gone || keptId === goneId) return null;
  const where = { partId: goneId };
  const lines = await reads.orderLine.findMany({ where: openLines(goneId), orderBy: { id: "asc" } });
  const side = (row: typeof kept): Side => ({
    id: row.id,
    version: row.version,
    name: row.code,
    about: [row.name, row.supplier, row.bin].filter(Boolean).join(", "),
  });
  const joined = joinFields(kept as unknown as Plains, gone as unknown as Plains, NAMES);
  const unshown = joinFields(kept as unknown as Plains, gone as unknown as Plains, UNSHOWN);
  const preview: MergePreview = {
    kept: side(kept),
    gone: side(gone),
    moves: [
      ...(gone.onHandMilli > 0 ? [`${quantityText(gone.onHandMilli, gone.unit)} of stock`] : []),
      ...counted({
        reservation: await reads.reservation.count({ where: { ...where, state: "held" } }),
        "open order line": lines.filter((line) => openOf(line) > 0).length,
        supplier: await reads.partSupplier.count({ where }),
        alternative: await reads.partSubstitute.count({ where: { OR: [where, { otherId: goneId }] } }),
        photo: await reads.photo.count({ where: { noun: "part", nounId: goneId, removedAt: null } }),
      }),
    ],
    filled: joined.filled,
    left: joined.left,
    against: await against(reads, kept, gone),
  };
  return { preview, kept, gone, lines, to: { ...joined.to, ...unshown.to } };
}

interface Counted {
  readonly id: number;
  readonly code: string;
  readonly unit: string;
}

async function against(reads: Reads, kept: Counted, gone: Counted): Promise<string> {
  if (kept.unit !== gone.unit) return `one is counted in ${kept.unit}, the other in ${gone.unit}.`;
  for (const part of [kept, gone])
    if (await keptInstead(reads, "part", part.id)) return `${part.code} was merged before.`;
  const counting = await reads.countLine.findFirst({
    where: { partId: { in: [kept.id, gone.id] }, sheet: { state: { in: ["open", "counted"] } } },
    select: { sheet: { select: { bin: true } } },
    orderBy: { id: "asc" },
  });
  return counting ? `a count of bin ${counting.sheet.bin} is open that one of them is on.` : "";
}

/**
 * Makes two parts one. The ledger only grows: what lies there of the gone one goes out of it and into the kept one at its cost,
 * and its earlier moves stay with it. Reservations, open order lines, suppliers and photos go over. The gone one is put away;
 * links, labels, files and recipes that name it lead to the kept one.
 */
export async function mergeParts(shop: ShopHandle, pair: Pair): Promise<number> {
  const { keptId, goneId } = pair;
  return shop.write(async (tx) => {
    const found = await previewParts(tx, keptId, goneId);
    if (!found) throw await missing(tx, pair);
    const { preview, kept, gone, lines, to } = found;
    demandMergeable(preview, pair);
    await noteMergeIn(tx, shop, "part", preview, gone.code);
    await moveStockIn(tx, shop, kept, gone, lines);
    await moveSupplyIn(tx, keptId, goneId);
    await tx.photo.updateMany({ where: { noun: "part", nounId: goneId }, data: { nounId: keptId } });
    await demandOne(
      tx.part.updateMany({
        where: { id: goneId, version: pair.goneVersion },
        data: { active: false, pointMilli: 0, version: { increment: 1 } },
      }),
      () => changedSince(gone.code),
    );
    await demandOne(
      tx.part.updateMany({
        where: { id: keptId, version: pair.keptVersion },
        data: {
          ...to,
          ...(kept.facts === null && gone.facts !== null ? { facts: gone.facts } : {}),
          active: true,
          searchKey: partKey({ ...kept, ...to }),
          version: { increment: 1 },
        },
      }),
      () => changedSince(kept.code),
    );
    const from = Object.fromEntries(
      Object.keys(to).map((key) => [key, (kept as unknown as Plains)[key] ?? null]),
    );
    await auditChange(tx, shop, "part", keptId, pair.keptVersion + 1, from, to);
    await auditMerge(tx, shop, "part", preview);
    return keptId;
  });
}

async function missing(tx: ShopTx, { keptId, goneId }: Pair): Promise<Refusal> {
  if (keptId === goneId) return new Refusal("Both are the same part.", "Choose the double of this one.");
  const kept = await tx.part.findUnique({ where: { id: keptId }, select: { id: true } });
  return mergedOrMissing(tx, "part", kept ? goneId : keptId);
}
