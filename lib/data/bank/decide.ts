import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { ASIDE_WORDS } from "@/lib/schemas/bank";
import { bouncedIn } from "../payments/bounced";
import { firstOpenDay } from "../shop/closing";
import { bankLineIn, moveLineIn } from "./book";

interface Seen {
  readonly id: number;
  readonly version: number;
  readonly key?: string | undefined;
}

/** A line that pays nothing here, with why. Answers its id. */
export async function setAside(
  shop: ShopHandle,
  input: Seen & { readonly reason: keyof typeof ASIDE_WORDS },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "set a bank line aside", input, async () => {
      const line = await bankLineIn(tx, input.id);
      await moveLineIn(tx, input, ["waiting"], "aside");
      await decideIn(tx, shop, line.id, "aside", ASIDE_WORDS[input.reason]);
      return line.id;
    }),
  );
}

/**
 * Lets a line wait again: what was set aside, and what was booked in error. Payments that it made are taken back by rows of their own,
 * as bounced ones are, unless they were before. Answers the line's id.
 */
export async function reopenLine(shop: ShopHandle, input: Seen & { readonly why: string }): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "let a bank line wait again", input, async () => {
      const line = await bankLineIn(tx, input.id);
      await moveLineIn(tx, input, ["booked", "aside"], "waiting");
      if (line.state === "booked") await takePaymentsBackIn(tx, shop, line.id, input.why);
      await decideIn(tx, shop, line.id, "reopened", input.why);
      return line.id;
    }),
  );
}

async function takePaymentsBackIn(tx: ShopTx, shop: ShopHandle, lineId: number, why: string): Promise<void> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const newest = await tx.bankDecision.findFirstOrThrow({
    where: { lineId, act: "booked" },
    select: { payments: { select: { paymentId: true }, orderBy: { paymentId: "asc" } } },
    orderBy: { id: "desc" },
  });
  const paidOn = await firstOpenDay(tx, dayIn(zone, shop.now));
  const ids = newest.payments.map((one) => one.paymentId);
  const reference = `Booked in error, bank line ${lineId}${why ? `: ${why}` : ""}`.slice(0, 120);
  for (const paymentId of ids) {
    // One act of several rows is taken back whole by its first.
    const before = await tx.payment.findUnique({ where: { reversesId: paymentId }, select: { id: true } });
    if (!before) await bouncedIn(tx, shop, { paymentId, paidOn, reference });
  }
}

async function decideIn(
  tx: ShopTx,
  shop: ShopHandle,
  lineId: number,
  act: "aside" | "reopened",
  why: string,
): Promise<void> {
  await tx.bankDecision.create({
    data: { lineId, act, why, at: shop.now, staffId: shop.by.staffId },
    select: { id: true },
  });
  await audit(tx, shop, act === "aside" ? "set aside" : "reopened", "bank line", lineId, { why });
}
