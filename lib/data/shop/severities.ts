import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { SeverityInput } from "@/lib/schemas/severities";

/** Uses that shorten intervals, the mildest first, those put away last. */
export async function listSeverities(shop: ShopHandle) {
  return shop.read.severity.findMany({
    select: { id: true, name: true, factor: true, active: true, version: true },
    orderBy: [{ active: "desc" }, { factor: "asc" }, { id: "asc" }],
    take: 100,
  });
}

/** Those to choose from on a bike, with the one it has. */
export async function severitiesToChoose(shop: ShopHandle, chosen: number | null = null) {
  const all = await listSeverities(shop);
  return all.filter((one) => one.active || one.id === chosen);
}

/** Adds a use, or changes one against its version: bikes that have it follow. */
export async function saveSeverity(shop: ShopHandle, { id, version, ...data }: SeverityInput): Promise<void> {
  await shop.write(async (tx) => {
    const same = await tx.severity.findUnique({ where: { name: data.name }, select: { id: true } });
    if (same && String(same.id) !== id)
      throw new Refusal(`“${data.name}” is there already.`, "Give it another name.", { name: "Taken." });
    if (id === "") {
      const made = await tx.severity.create({ data: { ...data, active: true }, select: { id: true } });
      return audit(tx, shop, "added", "use of bikes", made.id, data);
    }
    await demandOne(
      tx.severity.updateMany({
        where: { id: Number(id), version },
        data: { ...data, version: { increment: 1 } },
      }),
      () =>
        new Refusal("Somebody else changed this in the meantime.", "Load the page again.", {}, "conflict"),
    );
    await audit(tx, shop, "changed", "use of bikes", Number(id), data);
  });
}
