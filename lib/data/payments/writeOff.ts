import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { invoiceIn, jobIdOf } from "../invoices/rows";
import { countPaidIn } from "../invoices/settle";
import { writtenOffIn } from "../invoices/writtenOff";
import { addPaid, termsIn, writeMoneyIn } from "./rows";

interface WriteOff {
  readonly invoiceId: number;
  readonly reference: string;
  readonly key?: string | undefined;
}

/**
 * Writes off what will not be paid of an issued invoice, at most what is due: the tax stays as it was invoiced. Written off in full it
 * closes its jobs. Answers the row's id.
 */
export async function recordWriteOff(
  shop: ShopHandle,
  input: WriteOff & { readonly amountMinor: number },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "wrote off a rest", input, async () => {
      const row = await standingIn(tx, input.invoiceId);
      const due = outstanding({ ...row, credited: false });
      const { amountMinor } = input;
      if (!Number.isSafeInteger(amountMinor) || amountMinor <= 0 || amountMinor > due) {
        const { currency, locale } = await tx.settings.findUniqueOrThrow({
          where: { id: 1 },
          select: { currency: true, locale: true },
        });
        const most = moneyText(Math.max(0, due), currency, locale);
        const remedy = `At most ${most} ${currency} is due.`;
        throw new Refusal("This cannot be written off.", remedy, { amount: remedy });
      }
      return writeIn(tx, shop, row, { amountMinor, reference: input.reference });
    }),
  );
}

/** Takes all that was written off of an invoice back: it is due again. Answers the row's id. */
export async function takeWriteOffBack(shop: ShopHandle, input: WriteOff): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "took a write-off back", input, async () => {
      const row = await standingIn(tx, input.invoiceId);
      const off = await writtenOffIn(tx, row.id);
      if (off === 0)
        throw new Refusal("Nothing of this invoice is written off.", "Look at it again.", {}, "conflict");
      return writeIn(tx, shop, row, { amountMinor: 0 - off, reference: input.reference });
    }),
  );
}

async function standingIn(tx: ShopTx, id: number) {
  const row = await invoiceIn(tx, id);
  if (row.kind !== "invoice" || row.state !== "issued" || row.takenBack || row.saleId !== null)
    throw new Refusal(
      "Only an invoice that stands and is to be paid is written off.",
      "Nothing was recorded.",
      {},
      "conflict",
    );
  return row;
}

async function writeIn(
  tx: ShopTx,
  shop: ShopHandle,
  row: Awaited<ReturnType<typeof standingIn>>,
  { amountMinor, reference }: { amountMinor: number; reference: string },
): Promise<number> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const paidOn = dayIn(zone, shop.now);
  await termsIn(tx, shop, paidOn);
  const id = await writeMoneyIn(tx, shop, {
    kind: "writeOff",
    jobId: jobIdOf(row),
    invoiceId: row.id,
    method: "",
    amountMinor,
    roundingMinor: 0,
    paidOn,
    reference,
  });
  await addPaid(tx, row, amountMinor);
  await countPaidIn(tx, shop, row.id);
  return id;
}
