import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { SupplierInput } from "@/lib/schemas/orders";

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

/** Adds a supplier, or changes one. Its name is also what its parts say. Returns its id. */
export async function saveSupplier(shop: ShopHandle, input: SupplierInput, key?: string): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "saved a supplier", { ...input, key }, async () => {
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
      await demandOne(
        tx.supplier.updateMany({
          where: { id, version: version ?? 0 },
          data: { ...data, version: { increment: 1 } },
        }),
        () =>
          new Refusal(
            `Someone changed ${before.name} while you were editing it.`,
            "Reload it to see it as it is now, then make your change again.",
            {},
            "conflict",
          ),
      );
      if (before.name !== fields.name)
        await tx.part.updateMany({ where: { supplier: before.name }, data: { supplier: fields.name } });
      await audit(tx, shop, "changed", "supplier", id, { name: fields.name });
      return id;
    }),
  );
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
