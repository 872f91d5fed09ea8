import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandNothingHangs } from "../common/hanging";
import { forgetLinksIn } from "../common/merged";

/** Removes a customer who was made by mistake: nothing may hang on them. */
export async function removeCustomer(shop: ShopHandle, { id, version }: { id: number; version: number }) {
  await shop.write(async (tx) => {
    const row = await tx.customer.findUnique({
      where: { id },
      select: { name: true },
    });
    if (!row) throw new Refusal("There is no such customer.", "Choose one from the list.", {}, "missing");
    const where = { customerId: id };
    demandNothingHangs(row.name, {
      bike: await tx.bike.count({ where }),
      quote: await tx.quote.count({ where }),
      job: await tx.job.count({ where }),
      booking: await tx.booking.count({ where }),
      invoice: await tx.invoice.count({ where }),
    });
    await tx.reminderStop.deleteMany({ where });
    await demandOne(
      tx.customer.deleteMany({ where: { id, version } }),
      () => new Refusal(`${row.name} was changed meanwhile.`, "Open the customer again.", {}, "conflict"),
    );
    await forgetLinksIn(tx, "customer", id);
    await audit(tx, shop, "removed", "customer", id, { name: row.name });
  });
}
