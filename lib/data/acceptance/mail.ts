import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { formatMoney } from "@/lib/domain/money/format";
import { type BookingWish, wishText } from "@/lib/schemas/wishes";
import type { FrozenQuote } from "../documents/quote";

interface Yes {
  /** Empty where no address is known: then nothing is written. */
  readonly to: string;
  readonly frozen: FrozenQuote;
  readonly job: number;
  readonly name: string;
  readonly wish: BookingWish | null;
}

/** Thanks the customer for the yes: what was agreed, what it comes to, and when they would like it. */
export async function mailYes(tx: ShopTx, shop: ShopHandle, yes: Yes): Promise<void> {
  const { to, frozen, job, name, wish } = yes;
  if (!to) return;
  const when = wish ? ` You wish for it ${wishText(wish, frozen.locale)}.` : "";
  const lines = [
    `Hello ${frozen.customer.name},`,
    "",
    `thank you. ${name} accepted our quote ${frozen.number} for the ${frozen.bike.name}:`,
    ...frozen.options.map((o) => `- ${o.name}`),
    `Total: ${formatMoney(frozen.grossMinor, frozen.currency, frozen.locale)}`,
    "",
    `The job's number is ${job}.${when} We will be in touch about a day.`,
    "",
    frozen.shop.name,
    frozen.shop.phone,
  ];
  await tx.mail.create({
    data: {
      to,
      subject: `Quote ${frozen.number} accepted`,
      text: lines.join("\n").trim(),
      createdAt: shop.now,
    },
    select: { id: true },
  });
}
