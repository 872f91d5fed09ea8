import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";
import { forgetLinksIn } from "../common/merged";

/** Removes a bike that was made by mistake: nothing may hang on it. */
export async function removeBike(shop: ShopHandle, { id, version }: { id: number; version: number }) {
  await shop.write(async (tx) => {
    const row = await tx.bike.findUnique({
      where: { id },
      select: { plate: true, modelCard: { select: { make: true, model: true } } },
    });
    if (!row) throw new Refusal("There is no such bike.", "Choose one from the list.", {}, "missing");
    const name = [row.modelCard.make, row.modelCard.model, row.plate].filter(Boolean).join(" ");
    const where = { bikeId: id };
    demandNothingHangs(`The ${name}`, {
      "setting sheet": await tx.settingSheet.count({ where }),
      quote: await tx.quote.count({ where }),
      job: await tx.job.count({ where }),
      booking: await tx.booking.count({ where }),
      intake: await tx.intake.count({ where }),
      arrival: await tx.arrival.count({ where }),
      "follow-up": await tx.followUp.count({ where }),
      "described part": await tx.fittedPart.count({ where }),
      lesson: await tx.calibration.count({ where }),
      "before-and-after figure": await tx.effect.count({ where }),
      "photo pair": await tx.photoPair.count({ where }),
      "vacuum balance": await tx.vacuumBalance.count({ where }),
      photo: await tx.photo.count({ where: { noun: "bike", nounId: id, removedAt: null } }),
    });
    await demandOne(
      tx.bike.deleteMany({ where: { id, version } }),
      () => new Refusal(`The ${name} was changed meanwhile.`, "Open the bike again.", {}, "conflict"),
    );
    await forgetLinksIn(tx, "bike", id);
    await audit(tx, shop, "removed", "bike", id, { name });
  });
}
