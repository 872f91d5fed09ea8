import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";

/** Removes a bike that was made by mistake: nothing may hang on it. */
export async function removeBike(shop: ShopHandle, { id, version }: { id: number; version: number }) {
  await shop.write(async (tx) => {
    const row = await tx.bike.findUnique({
      where: { id },
      select: {
        plate: true,
        modelCard: { select: { make: true, model: true } },
        _count: { select: { sheets: true, quotes: true, jobs: true, followUps: true, calibrations: true } },
      },
    });
    if (!row) throw new Refusal("There is no such bike.", "Choose one from the list.", {}, "missing");
    const photos = await tx.photo.count({ where: { noun: "bike", nounId: id, removedAt: null } });
    const name = [row.modelCard.make, row.modelCard.model, row.plate].filter(Boolean).join(" ");
    const { sheets, quotes, jobs, followUps, calibrations } = row._count;
    demandNothingHangs(`The ${name}`, {
      "setting sheet": sheets,
      quote: quotes,
      job: jobs,
      "follow-up": followUps,
      lesson: calibrations,
      photo: photos,
    });
    await demandOne(
      tx.bike.deleteMany({ where: { id, version } }),
      () => new Refusal(`The ${name} was changed meanwhile.`, "Open the bike again.", {}, "conflict"),
    );
    await audit(tx, shop, "removed", "bike", id, { name });
  });
}
