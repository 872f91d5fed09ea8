import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { EinvoiceSellerInput } from "@/lib/schemas/einvoices";

/** As a shop begins: without e-invoices. */
const UNSET = {
  on: false,
  street: "",
  city: "",
  postcode: "",
  registerNumber: "",
  scheme: "",
  electronicAddress: "",
  version: 0,
};

/** What the shop's e-invoices say of it; version 0 while nobody entered anything. */
export async function einvoiceSeller(reads: Pick<ShopTx, "einvoiceSeller">) {
  return (await reads.einvoiceSeller.findUnique({ where: { id: 1 }, omit: { id: true } })) ?? UNSET;
}

/** Saves it from the version that the form was drawn with. The country is the shop's: the form's own is only what it was checked for. */
export async function saveEinvoiceSeller(shop: ShopHandle, input: EinvoiceSellerInput): Promise<void> {
  const { version = 0, over: _, country, ...fields } = input;
  await shop.write(async (tx) => {
    const settings = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { country: true } });
    if (settings.country !== country) throw changed();
    if ((await einvoiceSeller(tx)).version === 0 && version === 0)
      await tx.einvoiceSeller.create({ data: { id: 1, ...fields } });
    else
      await demandOne(
        tx.einvoiceSeller.updateMany({
          where: { id: 1, version },
          data: { ...fields, version: { increment: 1 } },
        }),
        changed,
      );
    await audit(tx, shop, "changed", "e-invoices", 1, fields);
  });
}

const changed = () =>
  new Refusal("This has just been changed by someone else.", "Look at it again.", {}, "conflict");
