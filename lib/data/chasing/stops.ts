import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";

export type StopOf = { readonly invoiceId: number } | { readonly customerId: number };

/** Stops that hold of an invoice or of a customer, the oldest first. */
export async function stopsOf(db: Pick<ShopTx, "reminderStop">, of: StopOf, today: string) {
  return db.reminderStop.findMany({
    where: { ...of, endedAt: null, OR: [{ untilOn: null }, { untilOn: { gte: today } }] },
    select: { id: true, reason: true, untilOn: true, personName: true, at: true },
    orderBy: { id: "asc" },
    take: 20,
  });
}

/** No more reminders of an invoice, or of any of a customer, with why and, if known, until when. */
export async function stopReminders(
  shop: ShopHandle,
  input: StopOf & {
    readonly reason: string;
    readonly untilOn: string | null;
    readonly key?: string | undefined;
  },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "stopped reminders", input, async () => {
      const { reason, untilOn } = input;
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      if (untilOn !== null && untilOn < dayIn(zone, shop.now))
        throw new Refusal("That day has passed.", "Enter a day that is to come, or none.", {
          untilOn: "Not in the past.",
        });
      const of = "invoiceId" in input ? { invoiceId: input.invoiceId } : { customerId: input.customerId };
      await demandThere(tx, of);
      const { id } = await tx.reminderStop.create({
        data: { ...of, reason, untilOn, personName: shop.by.name, at: shop.now },
        select: { id: true },
      });
      const [noun, nounId] =
        "invoiceId" in of ? (["invoice", of.invoiceId] as const) : (["customer", of.customerId] as const);
      await audit(tx, shop, "stopped reminders of", noun, nounId, { reason, untilOn });
      return id;
    }),
  );
}

async function demandThere(tx: ShopTx, of: StopOf): Promise<void> {
  const found =
    "invoiceId" in of
      ? await tx.invoice.findUnique({ where: { id: of.invoiceId }, select: { id: true } })
      : await tx.customer.findUnique({ where: { id: of.customerId }, select: { id: true } });
  if (!found) throw new Refusal("This is not there any more.", "Choose it from the list.", {}, "missing");
}

/** Ends a stop: reminders go on. */
export async function endStop(shop: ShopHandle, id: number): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.reminderStop.updateMany({
        where: { id, endedAt: null },
        data: { endedAt: shop.now, endedBy: shop.by.name },
      }),
      () => new Refusal("This stop is over already.", "Look at it again.", {}, "conflict"),
    );
    await audit(tx, shop, "ended", "reminderStop", id);
  });
}
