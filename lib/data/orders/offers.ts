import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { PartSupplierInput } from "@/lib/schemas/orders";
import { demandMayCost } from "../stock/mayCost";
import { supplierNamedIn } from "./suppliers";

export interface Offer {
  supplierId: number;
  code: string;
  costE4: number | null;
  packMilli: number;
  leastMilli: number;
  /** The supplier's days for this part, else for all of its parts, else the part's own. */
  leadDays: number | null;
}

const OFFER = {
  supplierId: true,
  code: true,
  costE4: true,
  packMilli: true,
  leastMilli: true,
  leadDays: true,
  usual: true,
  supplier: { select: { leadDays: true } },
} as const;

/** How a part is bought: from the supplier given, else from its usual one. Makes the supplier of the part's own words where there is no row yet. */
export async function offerIn(
  tx: ShopTx,
  shop: ShopHandle,
  partId: number,
  supplierId?: number,
): Promise<Offer> {
  const part = await tx.part.findUnique({
    where: { id: partId },
    select: {
      supplier: true,
      supplierCode: true,
      costE4: true,
      leadDays: true,
      suppliers: { select: OFFER, orderBy: [{ usual: "desc" }, { id: "asc" }] },
    },
  });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  const row = part.suppliers.find((each) =>
    supplierId === undefined ? each.usual : each.supplierId === supplierId,
  );
  if (row)
    return {
      ...row,
      costE4: row.costE4 ?? part.costE4,
      leadDays: row.leadDays ?? row.supplier.leadDays ?? part.leadDays,
    };
  const id = supplierId ?? (await supplierNamedIn(tx, shop, part.supplier));
  const own = {
    code: supplierId === undefined ? part.supplierCode : "",
    costE4: part.costE4,
    packMilli: 0,
    leastMilli: 0,
  };
  if (supplierId === undefined && part.supplier) await usualIn(tx, partId, id, own.code, part.leadDays);
  return { supplierId: id, ...own, leadDays: part.leadDays };
}

/** Makes a supplier the part's usual one. */
export async function usualIn(
  tx: ShopTx,
  partId: number,
  supplierId: number,
  code: string,
  leadDays: number | null,
): Promise<void> {
  await tx.partSupplier.updateMany({
    where: { partId, usual: true, supplierId: { not: supplierId } },
    data: { usual: false },
  });
  const named = { code, codeKey: searchKey(code), leadDays, usual: true };
  await tx.partSupplier.upsert({
    where: { partId_supplierId: { partId, supplierId } },
    create: { partId, supplierId, ...named },
    update: named,
    select: { id: true },
  });
}

/** Says under which code, in which packs and at what cost a supplier sells a part. */
export async function offerPart(shop: ShopHandle, input: PartSupplierInput): Promise<void> {
  demandMayCost(shop, input.cost);
  await shop.write(async (tx) => {
    const part = await tx.part.findUnique({
      where: { id: input.partId },
      select: { code: true, unit: true },
    });
    if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
    for (const [field, milli] of [
      ["pack", input.pack],
      ["least", input.least],
    ] as const)
      if (milli && part.unit === "each" && milli % 1000 !== 0)
        throw new Refusal("This part is counted in pieces.", "Enter a whole number.", {
          [field]: "Enter a whole number.",
        });
    const supplierId = await supplierNamedIn(tx, shop, input.supplier);
    const before = await tx.partSupplier.findUnique({
      where: { partId_supplierId: { partId: input.partId, supplierId } },
      select: { costE4: true },
    });
    const first =
      (await tx.partSupplier.findFirst({
        where: { partId: input.partId, usual: true, supplierId: { not: supplierId } },
        select: { id: true },
        orderBy: { id: "asc" },
      })) === null;
    const usual = input.usual || first;
    const cost = input.cost === undefined ? {} : { costE4: input.cost };
    const priced =
      input.cost != null && input.cost !== before?.costE4
        ? { pricedOn: shop.now.toISOString().slice(0, 10) }
        : {};
    if (usual) await usualIn(tx, input.partId, supplierId, input.code, input.leadDays ?? null);
    const named = { code: input.code, codeKey: searchKey(input.code), leadDays: input.leadDays ?? null };
    const data = {
      ...named,
      packMilli: input.pack ?? 0,
      leastMilli: input.least ?? 0,
      ...cost,
      ...priced,
      usual,
    };
    await tx.partSupplier.upsert({
      where: { partId_supplierId: { partId: input.partId, supplierId } },
      create: { partId: input.partId, supplierId, ...data },
      update: { ...data, version: { increment: 1 } },
      select: { id: true },
    });
    if (usual)
      await tx.part.update({
        where: { id: input.partId },
        data: { supplier: input.supplier, supplierCode: input.code, version: { increment: 1 } },
        select: { id: true },
      });
    await audit(tx, shop, "changed", "part", input.partId, { changed: [`supplier ${input.supplier}`] });
  });
}
