import { audit, once } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { PartSupplierInput, SupplierInput } from "@/lib/schemas/orders";

/** Whom a part is bought from while nobody has said. */
export const NOBODY = "No supplier named";

/** The supplier of a name; made when there is none. */
export async function supplierNamedIn(tx: ShopTx, shop: ShopHandle, name: string): Promise<number> {
  const wanted = name.trim() || NOBODY;
  const found = await tx.supplier.findUnique({ where: { name: wanted }, select: { id: true } });
  if (found) return found.id;
  const made = await tx.supplier.create({
    data: { name: wanted, searchKey: searchKey(wanted), createdAt: shop.now },
    select: { id: true },
  });
  await audit(tx, shop, "added", "supplier", made.id, { name: wanted });
  return made.id;
}

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

/** Adds a supplier, or changes one. Its name is also what its parts say. Returns its id. */
export async function saveSupplier(shop: ShopHandle, input: SupplierInput, key?: string): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, key, async () => {
      const { id, version, ...fields } = input;
      const other = await tx.supplier.findUnique({ where: { name: fields.name }, select: { id: true } });
      if (other && other.id !== id)
        throw new Refusal(
          `${fields.name} is a supplier already.`,
          "Change that one, or give this one another name.",
          {
            name: "Taken.",
          },
        );
      const data = { ...fields, searchKey: searchKey(fields.name, fields.email, fields.phone) };
      if (id === undefined) {
        const made = await tx.supplier.create({
          data: { ...data, createdAt: shop.now },
          select: { id: true },
        });
        await audit(tx, shop, "added", "supplier", made.id, { name: fields.name });
        return made.id;
      }
      const before = await tx.supplier.findUnique({ where: { id }, select: { name: true } });
      if (!before)
        throw new Refusal("There is no such supplier.", "Choose one from the list.", {}, "missing");
      const { count } = await tx.supplier.updateMany({
        where: { id, version: version ?? 0 },
        data: { ...data, version: { increment: 1 } },
      });
      if (count !== 1)
        throw new Refusal(
          `Someone changed ${before.name} while you were editing it.`,
          "Reload it to see it as it is now, then make your change again.",
          {},
          "conflict",
        );
      if (before.name !== fields.name)
        await tx.part.updateMany({ where: { supplier: before.name }, data: { supplier: fields.name } });
      await audit(tx, shop, "changed", "supplier", id, { name: fields.name });
      return id;
    }),
  );
}

/** Says under which code, in which packs and at what cost a supplier sells a part. */
export async function offerPart(shop: ShopHandle, input: PartSupplierInput): Promise<void> {
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

/** Suppliers by name, each with how much is open with it. */
export async function listSuppliers(shop: ShopHandle) {
  const [rows, orders] = await Promise.all([
    shop.read.supplier.findMany({
      select: { id: true, name: true, email: true, phone: true, leadDays: true, active: true },
      orderBy: { name: "asc" },
      take: 500,
    }),
    shop.read.purchaseOrder.groupBy({
      by: ["supplierId"],
      where: { state: { in: ["ordered", "partReceived"] } },
      _count: { id: true },
    }),
  ]);
  const open = new Map(orders.map((row) => [row.supplierId, row._count.id]));
  return rows.map((row) => ({ ...row, openOrders: open.get(row.id) ?? 0 }));
}

export async function getSupplier(shop: ShopHandle, id: number) {
  return shop.read.supplier.findUnique({
    where: { id },
    select: {
      id: true,
      name: true,
      email: true,
      phone: true,
      address: true,
      customerNumber: true,
      leadDays: true,
      note: true,
      active: true,
      version: true,
    },
  });
}
