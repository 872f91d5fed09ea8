import type { ShopHandle } from "@/lib/db/shop";
import { depositLeftOf, writtenOff } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import { dayIn } from "@/lib/domain/schedule/days";
import { bikeName } from "../bikes/bikeName";
import { storedInvoice } from "../documents/invoice";
import { storedQuote } from "../documents/quote";
import { payAskOf } from "../invoices/paying";
import { WRITTEN_OFF } from "../invoices/writtenOff";
import { payAskFor } from "../shop/account";

const MONEY = { kind: true, amountMinor: true, roundingMinor: true } as const;

/** How far a job is, as its customer may know it: no names of people, no minutes, no notes. Null where there is no such job. */
export async function jobProgress(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      number: true,
      title: true,
      state: true,
      arrivedAt: true,
      finishedAt: true,
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
      steps: { select: { kind: true, name: true, state: true }, orderBy: { position: "asc" }, take: 500 },
      bookings: {
        where: { state: "held" },
        select: { id: true, startsAt: true, endsAt: true, dropOffAt: true, pickUpAt: true, version: true },
        orderBy: { startsAt: "asc" },
        take: 10,
      },
    },
  });
  if (!job) return null;
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, phone: true, email: true, address: true, locale: true, zone: true },
  });
  const { steps, bike, ...rest } = job;
  return {
    ...rest,
    bike: bikeName(bike),
    done: steps.filter((step) => step.state !== "todo").length,
    steps: steps.length,
    work: steps.filter((step) => step.kind === "operation").map(({ name, state }) => ({ name, state })),
    shop: settings,
  };
}

/** What was agreed for a job, what waits for the customer's word, and what is to pay: the money side of its page. */
export async function jobDealings(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      number: true,
      revision: {
        select: {
          frozen: true,
          acceptance: { select: { typedName: true, at: true } },
          quote: { select: { number: true, sequence: true } },
        },
      },
      payments: { select: MONEY, orderBy: { id: "asc" }, take: 200 },
      variations: {
        where: { state: { in: ["sent", "accepted"] } },
        select: { title: true, grossMinor: true, state: true, validUntil: true },
        orderBy: { id: "asc" },
        take: 50,
      },
      invoices: {
        where: { state: "issued" },
        select: {
          id: true,
          written: true,
          kind: true,
          state: true,
          issuedOn: true,
          dueOn: true,
          grossMinor: true,
          prepaidMinor: true,
          paidMinor: true,
          takenBack: true,
          payments: WRITTEN_OFF,
          frozen: true,
        },
        orderBy: { id: "asc" },
        take: 20,
      },
    },
  });
  const { currency, zone } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true, zone: true },
  });
  const agreed = job.revision.frozen === null ? null : storedQuote(job.revision.frozen);
  const today = dayIn(zone, shop.now);
  const paidMinor = depositLeftOf(job.payments);
  const depositMinor = agreed?.depositMinor ?? 0;
  // What came in already is taken off; nothing is asked for once there is an invoice.
  const depositLeftMinor = job.invoices.length > 0 ? 0 : Math.max(0, depositMinor - Math.max(0, paidMinor));
  return {
    number: job.number,
    currency,
    zone,
    agreed: agreed && {
      quote: agreed.number,
      options: agreed.options.map((option) => option.name),
      grossMinor: agreed.grossMinor,
      by: job.revision.acceptance?.typedName ?? "",
      at: job.revision.acceptance?.at ?? null,
    },
    depositLeftMinor,
    depositAsk:
      depositLeftMinor > 0
        ? await payAskFor(shop.read, {
            kind: "deposit",
            number: job.revision.quote.sequence,
            written: job.revision.quote.number,
          })
        : null,
    depositPaidMinor: job.invoices.length > 0 ? 0 : Math.max(0, paidMinor),
    added: job.variations.filter((one) => one.state === "accepted"),
    waiting: job.variations.filter((one) => one.state === "sent" && one.validUntil >= today),
    invoices: await Promise.all(
      job.invoices.map(async ({ takenBack, payments, frozen, ...invoice }) => {
        const leftMinor = outstanding({ ...invoice, credited: takenBack });
        return {
          id: invoice.id,
          written: invoice.written,
          kind: invoice.kind,
          issuedOn: invoice.issuedOn,
          dueOn: invoice.dueOn,
          leftMinor,
          ask: leftMinor > 0 ? await payAskOf(shop.read, storedInvoice(frozen)) : null,
          credited: takenBack,
          writtenOff: writtenOff(payments) > 0,
        };
      }),
    ),
  };
}
