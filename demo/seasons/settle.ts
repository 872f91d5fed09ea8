import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordWriteOff } from "@/lib/data/payments/writeOff";
import type { Stage } from "../stage";
import type { Chance } from "../work/chance";
import type { Course } from "../work/courses";
import { invoice, type Method, pay } from "../work/money";

/** How an invoice ends. */
export type End =
  | "paid"
  | "late"
  | "in parts"
  | "unpaid"
  | "written off"
  | "bounced"
  | "overpaid"
  | "credited"
  | "credited in part"
  | "refunded";

/** Days after the invoice, as the shop's customers are: most at the counter, transfers in their days, some long after. */
const WAITS: Record<Method, readonly [number, number]> = { card: [0, 1], cash: [0, 1], transfer: [3, 10] };

/** The invoice of a finished job, and its money as `end` says. */
export async function* settle(stage: Stage, at: Date, jobId: number, end: End, chance: Chance): Course {
  const { calendar } = stage;
  const issued = calendar.dayOf(at);
  const id = await invoice(stage, at, jobId, chance.share() < 0.35 ? "asWorked" : "fixed");
  if (end === "unpaid") return;
  const on = (days: number) => calendar.on(calendar.later(issued, days), "17:20");
  const method = chance.pick<Method>(["card", "card", "transfer", "cash"]);
  const soon = chance.between(...WAITS[method]);
  if (end === "paid") {
    yield on(soon);
    return pay(stage, on(soon), id, method);
  }
  if (end === "late") {
    const days = chance.between(26, 74);
    yield on(days);
    return pay(stage, on(days), id, "transfer");
  }
  if (end === "credited") {
    yield on(1);
    await creditInvoice(stage.shop.as(stage.hands.desk, on(1)), { id, reason: REASONS.wrong[stage.tongue] });
    const again = await invoice(stage, on(1), jobId, "fixed");
    yield on(soon + 2);
    return pay(stage, on(soon + 2), again, method);
  }
  const due = await dueOf(stage, id);
  const part = Math.max(100, Math.round(due / 500) * 100);
  if (end === "in parts" || end === "written off") {
    yield on(9);
    await pay(stage, on(9), id, "transfer", part * 2);
    const last = on(end === "in parts" ? chance.between(30, 60) : chance.between(95, 140));
    yield last;
    if (end === "in parts") return pay(stage, last, id, "transfer");
    return void (await recordWriteOff(stage.shop.as("owner", last), {
      invoiceId: id,
      amountMinor: await dueOf(stage, id),
      reference: REASONS.gone[stage.tongue],
    }));
  }
  yield on(4);
  const desk = stage.shop.as(stage.hands.desk, on(4));
  const money = { invoiceId: id, method: "transfer" as const, paidOn: calendar.dayOf(on(4)) };
  if (end === "credited in part") {
    await creditOff(stage, on(4), id, part);
    yield on(8);
    return pay(stage, on(8), id, "transfer");
  }
  const over = end === "overpaid" ? { amountMinor: due + part, keepRest: true } : { amountMinor: due };
  const paymentId = await recordPayment(desk, { ...money, ...over });
  if (end === "overpaid") return;
  yield on(11);
  if (end === "refunded") {
    await creditOff(stage, on(11), id, part);
    return void (await recordRefund(stage.shop.as(stage.hands.desk, on(11)), {
      jobId,
      amountMinor: part,
      method: "transfer",
      paidOn: calendar.dayOf(on(11)),
      reference: REASONS.less[stage.tongue],
    }));
  }
  const bank = stage.shop.as(stage.hands.desk, on(11));
  await recordBounced(bank, {
    paymentId,
    paidOn: calendar.dayOf(on(11)),
    reference: REASONS.bank[stage.tongue],
  });
  yield on(19);
  await pay(stage, on(19), id, "card");
}

const REASONS = {
  wrong: { en: "Invoiced to the wrong job number; put right.", nb: "Fakturert på feil jobb; rettet." },
  less: { en: "Took less than was said: some comes off.", nb: "Tok mindre tid enn avtalt: noe trekkes fra." },
  gone: { en: "Moved away, letters come back.", nb: "Har flyttet, brevene kommer i retur." },
  bank: { en: "Returned by the bank.", nb: "Returnert av banken." },
} as const;

async function creditOff(stage: Stage, at: Date, id: number, wholeMinor: number): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, at);
  const { version } = await shop.read.invoice.findUniqueOrThrow({ where: { id }, select: { version: true } });
  const reason = REASONS.less[stage.tongue];
  await creditPart(shop, { id, version, reason, ask: { wholeMinor }, fates: {}, corrected: false });
}

async function dueOf(stage: Stage, id: number): Promise<number> {
  const { grossMinor, prepaidMinor, paidMinor } = await stage.shop
    .as(stage.hands.desk, stage.now)
    .read.invoice.findUniqueOrThrow({
      where: { id },
      select: { grossMinor: true, prepaidMinor: true, paidMinor: true },
    });
  return grossMinor - prepaidMinor - paidMinor;
}
