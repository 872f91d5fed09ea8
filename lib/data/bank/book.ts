import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { Take } from "@/lib/schemas/bank";
import { keepAsBalanceIn } from "../payments/keep";
import { depositIn, payInvoiceIn } from "../payments/record";
import { firstOpenDay } from "../shop/closing";

export interface ToBook {
  readonly id: number;
  readonly version: number;
  /** What it pays, in this order. What is over is the customer's balance. */
  readonly takes: readonly Take[];
  /** Whose balance gets what is over where nothing is paid. */
  readonly customerId?: number | undefined;
  readonly key?: string | undefined;
}

/** The line as a write decides about it. */
export async function bankLineIn(tx: ShopTx, id: number) {
  const line = await tx.bankLine.findUnique({
    where: { id },
    select: {
      id: true,
      bookedOn: true,
      amountMinor: true,
      text: true,
      payer: true,
      state: true,
      version: true,
    },
  });
  if (!line) throw new Refusal("There is no such line.", "Choose one from the list.", {}, "missing");
  return line;
}

/** Moves a line on from the state that was seen; refused where somebody else was faster. */
export async function moveLineIn(
  tx: ShopTx,
  { id, version }: { readonly id: number; readonly version: number },
  from: readonly string[],
  state: "waiting" | "booked" | "aside",
): Promise<void> {
  await demandOne(
    tx.bankLine.updateMany({
      where: { id, version, state: { in: [...from] } },
      data: { state, version: { increment: 1 } },
    }),
    () =>
      new Refusal(
        "Somebody has decided about this line in the meantime.",
        "Nothing was booked twice. Look at the list again.",
        {},
        "conflict",
      ),
  );
}

/**
 * Books a line as payments by bank transfer on its day: invoices, deposits, and what is over as the customer's balance. All of it or
 * nothing, and never twice. Answers the line's id.
 */
export async function bookLine(shop: ShopHandle, input: ToBook): Promise<number> {
  return shop.write((tx) => once(tx, shop, "booked a bank line", input, () => bookIn(tx, shop, input)));
}

async function bookIn(tx: ShopTx, shop: ShopHandle, input: ToBook): Promise<number> {
  const line = await bankLineIn(tx, input.id);
  await moveLineIn(tx, input, ["waiting"], "booked");
  const overMinor = input.takes.reduce((left, take) => left - take.minor, line.amountMinor);
  demandFits(line.amountMinor, overMinor, input);
  // Two lines may say the same: the number tells their payments apart.
  const reference = `Bank line ${line.id}: ${[line.text, line.payer].filter(Boolean).join(", ")}`.slice(
    0,
    120,
  );
  // A line of a closed period is booked on the first open day.
  const paidOn = await firstOpenDay(tx, line.bookedOn);
  const money = { method: "transfer", paidOn, reference } as const;
  const last = input.takes.findLast((take) => take.kind === "invoice");
  for (const take of input.takes) {
    const { kind, id, minor } = take;
    if (kind === "deposit") await depositIn(tx, shop, { ...money, jobId: id, amountMinor: minor });
    else {
      const over = take === last ? overMinor : 0;
      await payInvoiceIn(tx, shop, {
        ...money,
        invoiceId: id,
        amountMinor: minor + over,
        keepRest: over > 0,
      });
    }
  }
  if (input.takes.length === 0 && input.customerId !== undefined)
    await keepAsBalanceIn(tx, shop, { ...money, customerId: input.customerId, amountMinor: overMinor });
  await keepDecisionIn(tx, shop, line.id, reference);
  return line.id;
}

function demandFits(amountMinor: number, overMinor: number, { takes, customerId }: ToBook): void {
  const none = takes.length === 0;
  if (amountMinor <= 0 || (none && customerId === undefined))
    throw new Refusal(
      amountMinor <= 0 ? "This line brings no money." : "Nothing was chosen that this line pays.",
      amountMinor <= 0 ? "Set it aside with why." : "Choose what it pays, or set it aside.",
    );
  if (overMinor < 0 || takes.some((take) => take.minor <= 0))
    throw new Refusal("The amounts come to more than the line brings.", "Lower one of them.", {}, "conflict");
  if (overMinor > 0 && !none && !takes.some((take) => take.kind === "invoice"))
    throw new Refusal(
      "Some of the money is over, and a deposit alone keeps no balance.",
      "Choose an invoice too, or take more of it as the deposit.",
    );
}

/** Keeps what was decided, with the payments that it made: they bear the line's own reference. */
async function keepDecisionIn(
  tx: ShopTx,
  shop: ShopHandle,
  lineId: number,
  reference: string,
): Promise<void> {
  const payments = await tx.payment.findMany({
    where: {
      reference,
      at: shop.now,
      kind: { in: ["payment", "deposit", "overpayment"] },
      bankPayment: null,
    },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  const { id } = await tx.bankDecision.create({
    data: { lineId, act: "booked", at: shop.now, staffId: shop.by.staffId },
    select: { id: true },
  });
  await tx.bankPayment.createMany({
    data: payments.map((payment) => ({ paymentId: payment.id, decisionId: id })),
  });
  await audit(tx, shop, "booked", "bank line", lineId, { payments: payments.map((payment) => payment.id) });
}

export interface BookedAll {
  readonly booked: number;
  /** What was not, and why; it goes on waiting. */
  readonly refused: readonly { readonly id: number; readonly why: string }[];
}

/** Books several lines as they were shown, each by itself: one that is refused keeps none of the others back. */
export async function bookLines(
  shop: ShopHandle,
  { lines, key }: { readonly lines: readonly ToBook[]; readonly key?: string | undefined },
): Promise<BookedAll> {
  let booked = 0;
  const refused: { id: number; why: string }[] = [];
  for (const line of lines)
    try {
      await bookLine(shop, { ...line, key: key && `${line.id}-${key}` });
      booked++;
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      refused.push({ id: line.id, why: cause.message });
    }
  return { booked, refused };
}
