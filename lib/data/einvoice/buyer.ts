import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { EinvoiceBuyerInput } from "@/lib/schemas/einvoices";
import { mergedOrMissing } from "../common/merged";

const UNSET = {
  on: false,
  street: "",
  city: "",
  postcode: "",
  registerNumber: "",
  scheme: "",
  electronicAddress: "",
  reference: "",
  version: 0,
};

/** What a customer's e-invoices say of them; of the shop's own country and version 0 while nobody entered anything. */
export async function einvoiceBuyer(reads: Pick<ShopTx, "einvoiceBuyer" | "settings">, customerId: number) {
  const found = await reads.einvoiceBuyer.findUnique({
    where: { customerId },
    omit: { customerId: true },
  });
  if (found) return found;
  const { country } = await reads.settings.findUniqueOrThrow({ where: { id: 1 }, select: { country: true } });
  return { ...UNSET, country };
}

/** Saves it from the version that the form was drawn with. */
export async function saveEinvoiceBuyer(shop: ShopHandle, input: EinvoiceBuyerInput): Promise<void> {
  const { customerId, version = 0, over: _, ...fields } = input;
  await shop.write(async (tx) => {
    const customer = await tx.customer.findUnique({
      where: { id: customerId },
      select: { business: true },
    });
    if (!customer) throw await mergedOrMissing(tx, "customer", customerId);
    if (fields.on && !customer.business)
      throw new Refusal(
        "E-invoices are for businesses, and this customer is none.",
        "Tick “A business” on the customer first.",
        { on: "This customer is no business." },
      );
    if ((await einvoiceBuyer(tx, customerId)).version === 0 && version === 0)
      await tx.einvoiceBuyer.create({ data: { customerId, ...fields } });
    else
      await demandOne(
        tx.einvoiceBuyer.updateMany({
          where: { customerId, version },
          data: { ...fields, version: { increment: 1 } },
        }),
        () => new Refusal("This has just been changed by someone else.", "Look at it again.", {}, "conflict"),
      );
    await audit(tx, shop, "changed the e-invoices of", "customer", customerId, fields);
  });
}
