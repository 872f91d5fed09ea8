import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";
import { forgetLinksIn, keptInstead } from "../common/merged";
import { packagesNaming, quotesNaming } from "./namedBy";

/**
 * Removes a part that was made by mistake: nothing may hang on it, and no package or open quote take it. One that has moved is put
 * away instead.
 */
export async function removePart(shop: ShopHandle, { id, version }: { id: number; version: number }) {
  await demandUnnamed(shop, id);
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
      "part that it replaces": await tx.part.count({ where: { replacedById: id } }),
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

const MOST_SAID = 5;

/** Refuses to remove a part that packages or open quotes take by its code: they would stand at nothing without a word. */
async function demandUnnamed(shop: ShopHandle, id: number): Promise<void> {
  const part = await shop.read.part.findUnique({ where: { id }, select: { id: true, code: true } });
  if (!part) return;
  const packages = await packagesNaming(shop.read, part);
  const quotes = await quotesNaming(shop.read, part);
  if (packages.length + quotes.length === 0) return;
  const some = (all: readonly string[]) =>
    all.length > MOST_SAID
      ? `${all.slice(0, MOST_SAID).join(", ")} and ${all.length - MOST_SAID} more`
      : all.join(", ");
  const by = [
    ...(packages.length > 0
      ? [`the package${packages.length > 1 ? "s" : ""} ${some(packages.map((one) => `“${one}”`))}`]
      : []),
    ...(quotes.length > 0 ? [`quote${quotes.length > 1 ? "s" : ""} ${some(quotes)}`] : []),
  ];
  throw new Refusal(
    `${part.code} is taken by ${by.join(" and by ")}.`,
    "Take it out there first, or put the part away: it stays then for what names it.",
    {},
    "conflict",
  );
}
