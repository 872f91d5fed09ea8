import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";
import { forgetLinksIn, keptInstead } from "../common/merged";

/** Removes a part that was made by mistake: nothing may hang on it. One that has moved is put away instead. */
export async function removePart(shop: ShopHandle, { id, version }: { id: number; version: number }) {
  await shop.write(async (tx) => {
    const row = await tx.part.findUnique({ where: { id }, select: { code: true } });
    if (!row) throw new Refusal("There is no such part.", "Choose one from the list.", {}, "missing");
    if (await keptInstead(tx, "part", id))
      throw new Refusal(`${row.code} was merged, and its links lead on.`, "Leave it put away.");
    const where = { partId: id };
    demandNothingHangs(row.code, {
      move: await tx.move.count({ where }),
      reservation: await tx.reservation.count({ where }),
      "order line": await tx.orderLine.count({ where }),
      count: await tx.countLine.count({ where }),
      kit: await tx.kitLine.count({ where }),
      alternative: await tx.partSubstitute.count({ where: { OR: [where, { otherId: id }] } }),
      "described part": await tx.fittedPart.count({ where }),
      photo: await tx.photo.count({ where: { noun: "part", nounId: id, removedAt: null } }),
    });
    await tx.partBin.deleteMany({ where });
    await tx.partSupplier.deleteMany({ where });
    await demandOne(
      tx.part.deleteMany({ where: { id, version } }),
      () => new Refusal(`${row.code} was changed meanwhile.`, "Open the part again.", {}, "conflict"),
    );
    await forgetLinksIn(tx, "part", id);
    await audit(tx, shop, "removed", "part", id, { code: row.code });
  });
}
