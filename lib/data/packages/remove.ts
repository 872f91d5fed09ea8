import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";

/** Removes a package that was made by mistake, with its draft: one that was published or quoted is retired instead. */
export async function removePackage(
  shop: ShopHandle,
  { id, version }: { id: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const row = await tx.package.findUnique({ where: { id }, select: { name: true } });
    if (!row) throw new Refusal("There is no such package.", "Choose one from the list.", {}, "missing");
    demandNothingHangs(row.name, {
      "published revision": await tx.packageRevision.count({ where: { packageId: id, state: "published" } }),
      "quoted work": await tx.quoteWork.count({ where: { packageRevision: { packageId: id } } }),
    });
    await tx.packageRevision.deleteMany({ where: { packageId: id, state: "draft" } });
    await demandOne(
      tx.package.deleteMany({ where: { id, version } }),
      () => new Refusal(`${row.name} was changed meanwhile.`, "Open the package again.", {}, "conflict"),
    );
    await audit(tx, shop, "removed", "package", id, { name: row.name });
  });
}
