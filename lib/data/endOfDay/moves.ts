import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { demandDrawerOpen } from "./last";

/**
 * Cash put into the drawer (above zero) or taken out of it that pays nothing: small change fetched, a stamp bought. A wrong one is
 * corrected by another one. Answers its id. Refused for a day whose drawer is closed, and one to come.
 */
export async function moveCash(
  shop: ShopHandle,
  input: {
    readonly day: string;
    readonly amountMinor: number;
    readonly reason: string;
    readonly key?: string | undefined;
  },
): Promise<number> {
  const { day, amountMinor, reason } = input;
  if (!Number.isSafeInteger(amountMinor) || amountMinor === 0)
    throw new Refusal("An amount above zero is needed.", "Enter what was put in or taken out.", {
      amount: "Enter an amount above zero.",
    });
  return shop.write((tx) =>
    once(tx, shop, "moved cash", input, async () => {
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      if (day > dayIn(zone, shop.now))
        throw new Refusal("That day has not come yet.", "Enter the day the cash moved.", {
          day: "Not in the future.",
        });
      await demandDrawerOpen(tx, shop, day);
      const { id } = await tx.drawerMove.create({
        data: {
          day,
          amountMinor,
          reason,
          staffId: shop.by.staffId,
          personName: shop.by.name,
          at: shop.now,
        },
        select: { id: true },
      });
      await audit(tx, shop, amountMinor > 0 ? "put in" : "took out", "drawer", id, {
        day,
        amountMinor,
        reason,
      });
      return id;
    }),
  );
}
