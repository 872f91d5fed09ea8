import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import type { PaymentKind } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import { type LetterKind, type LetterValues, PLACEHOLDERS, usable } from "@/lib/domain/letters/kinds";
import { dayIn } from "@/lib/domain/schedule/days";
import { customerLocale, type Language, languageOf } from "@/lib/words/language";
import { yesValues } from "../acceptance/mail";
import { formatsOf } from "../bookings/facts";
import { reachOf } from "../bookings/reach";
import { saidOf, subjectOf } from "../bookings/subject";
import { bookingLetter, type News } from "../bookings/words";
import { reminderValues } from "../chasing/reminderLetter";
import { statementPaper, usualDays } from "../chasing/statement";
import { statementValues } from "../chasing/statementMail";
import { storedInvoice } from "../documents/invoice";
import { storedQuote } from "../documents/quote";
import { ASKED, howRunsValues } from "../followUps/howRuns";
import { invoiceValues } from "../invoices/letterValues";
import { payAskOf } from "../invoices/paying";
import { hoursSaid, toPayOf } from "../invoices/readyMail";
import { wishOfJob } from "../jobs/wishes";
import { commonValues } from "../mail/letters";
import { moneyValues } from "../payments/paperMail";
import { depositRequest, paymentPaper } from "../payments/papers";
import { depositsAsked } from "../payments/several";
import { quoteValues } from "../quotes/letters";
import { payAskFor, payText } from "../shop/account";

type Values = Readonly<Partial<Record<string, string>>>;

export interface LetterSample {
  /** False where the shop has nothing yet that such a letter could be about: the values then say what stands there. */
  readonly real: boolean;
  readonly values: Values;
}

/** What a letter would say of the newest thing in the shop that it could be about, in a language. No link is made for it. */
export async function letterSample(
  shop: ShopHandle,
  kind: LetterKind,
  language: Language,
  origin: string,
): Promise<LetterSample> {
  const { locale: own } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { locale: true },
  });
  const locale = customerLocale(own, language);
  const link = `${origin}/c/${shop.slug}/...`;
  const values = await SAMPLES[kind](shop, locale, link);
  const common = await commonValues(shop.read, locale);
  if (values) return { real: true, values: { ...values, ...common } };
  const means = Object.fromEntries(usable(kind).map((name) => [name, `(${PLACEHOLDERS[name].means})`]));
  return { real: false, values: { ...means, ...common, link } };
}

type Sample<K extends LetterKind> = (
  shop: ShopHandle,
  locale: string,
  link: string,
) => Promise<LetterValues<K> | null>;

const newest = { orderBy: { id: "desc" } } as const;

async function quoteSample(shop: ShopHandle, locale: string, link: string, more: boolean) {
  const row = await shop.read.quoteRevision.findFirst({
    where: { frozenAt: { not: null }, quote: { variationOfId: more ? { not: null } : null } },
    select: { frozen: true, quote: { select: { variationOf: { select: { number: true } } } } },
    ...newest,
  });
  if (!row) return null;
  const values = quoteValues({ ...storedQuote(row.frozen), locale }, link);
  return { ...values, words: "", job: String(row.quote.variationOf?.number ?? "") };
}

const answerSample: Sample<"answer"> = async ({ read }) => {
  const row = await read.quoteQuestion.findFirst({
    where: { answeredAt: { not: null } },
    select: {
      text: true,
      answer: true,
      quote: { select: { number: true, customer: { select: { name: true } } } },
    },
    ...newest,
  });
  if (!row) return null;
  const { text: question, answer, quote } = row;
  return { name: quote.customer.name, quote: String(quote.number), question, answer };
};

const yesSample: Sample<"yes"> = async ({ read }, locale) => {
  const row = await read.acceptance.findFirst({
    where: { revision: { job: { isNot: null } } },
    select: {
      typedName: true,
      language: true,
      shownHash: true,
      revision: {
        select: {
          frozen: true,
          quote: { select: { number: true, sequence: true } },
          job: { select: { id: true, number: true } },
        },
      },
    },
    ...newest,
  });
  if (!row?.revision.job) return null;
  const { number: written, sequence: number } = row.revision.quote;
  const ask = await payAskFor(read, { kind: "deposit", number, written });
  const frozen = { ...storedQuote(row.revision.frozen), locale };
  return yesValues(
    {
      frozen,
      hash: row.shownHash,
      job: row.revision.job.number,
      name: row.typedName,
      wish: await wishOfJob({ read }, row.revision.job.id),
      language: row.language === "" ? "" : languageOf(locale),
    },
    payText(ask, locale),
  );
};

const booked =
  (news: News) =>
  async ({ read }: ShopHandle, locale: string) => {
    const booking = await read.booking.findFirst({
      where: { state: "held", OR: [{ jobId: { not: null } }, { customerId: { not: null } }] },
      ...newest,
    });
    if (!booking) return null;
    const { zone } = await formatsOf(read);
    return bookingLetter(news, saidOf(await subjectOf(read, booking)), booking, { zone, locale }).values;
  };

const finished: Prisma.JobWhereInput = {
  finishedAt: { not: null },
  state: { in: ["ready", "invoiced", "closed"] },
};

const readySample: Sample<"ready"> = async ({ read }, locale, link) => {
  const job = await read.job.findFirst({
    where: finished,
    select: { ...ASKED, id: true },
    ...newest,
  });
  if (!job) return null;
  const { answers: _answers, ...said } = howRunsValues(job, link, locale);
  return {
    ...said,
    ...(await toPayOf(read, job.id, locale)),
    hours: hoursSaid(await reachOf({ read }, locale), locale),
    link,
  };
};

const howRunsSample: Sample<"howRuns"> = async ({ read }, locale, link) => {
  const job = await read.job.findFirst({
    where: finished,
    select: ASKED,
    ...newest,
  });
  return job && howRunsValues(job, link, locale);
};

const issued =
  (kind: "invoice" | "receipt") =>
  async ({ read, now }: ShopHandle, locale: string, path: string) => {
    const row = await read.invoice.findFirst({ where: { kind, state: "issued" }, ...newest });
    if (!row) return null;
    const doc = { ...storedInvoice(row.frozen), locale };
    const howToPay = payText(await payAskOf(read, doc), locale);
    const link = { path, expiresAt: now };
    const leftMinor = outstanding({ ...row, credited: false });
    return {
      ...invoiceValues(doc, link, howToPay),
      ...reminderValues(doc, { leftMinor, feesMinor: 0, words: "", howToPay, link }),
    };
  };

const depositSample: Sample<"depositRequest"> = async ({ read, now }, locale, link) => {
  const [asked] = await depositsAsked(read, {}, 20);
  if (!asked) return null;
  const { printed } = await depositRequest(read, asked.id, now);
  return moneyValues({ ...printed, locale }, link);
};

const moneySample =
  (kinds: readonly PaymentKind[]): Sample<"paymentReceived"> =>
  async ({ read }, locale, link) => {
    const rows = await read.payment.findMany({
      where: { kind: { in: [...kinds] }, jobId: { not: null }, method: { not: "balance" } },
      select: { id: true },
      ...newest,
      take: 20,
    });
    const back = await read.payment.findMany({
      where: { reversesId: { in: rows.map((row) => row.id) } },
      select: { reversesId: true },
      orderBy: { id: "asc" },
    });
    const row = rows.find(({ id }) => !back.some((one) => one.reversesId === id));
    if (!row) return null;
    const { printed } = await paymentPaper(read, row.id);
    return moneyValues({ ...printed, locale }, link);
  };

const statementSample: Sample<"statement"> = async ({ read, now }, locale) => {
  const row = await read.invoice.findFirst({
    where: { kind: "invoice", state: "issued", customerId: { not: null } },
    select: { customerId: true },
    ...newest,
  });
  if (!row?.customerId) return null;
  const paper = await statementPaper(
    read,
    row.customerId,
    usualDays(dayIn((await formatsOf(read)).zone, now)),
    now,
  );
  return paper && statementValues({ ...paper, locale }, "");
};

const SAMPLES: { readonly [K in LetterKind]: Sample<K> } = {
  quote: (shop, locale, link) => quoteSample(shop, locale, link, false),
  reminder: (shop, locale, link) => quoteSample(shop, locale, link, false),
  variation: (shop, locale, link) => quoteSample(shop, locale, link, true),
  answer: answerSample,
  yes: yesSample,
  booking: booked("made"),
  change: booked("moved"),
  cancelled: booked("cancelled"),
  missed: booked("missed"),
  dayBefore: booked("dayBefore"),
  ready: readySample,
  howRuns: howRunsSample,
  invoice: issued("invoice"),
  receipt: issued("receipt"),
  paymentReminder: issued("invoice"),
  depositRequest: depositSample,
  paymentReceived: moneySample(["payment", "deposit"]),
  paidBack: moneySample(["refund"]),
  paymentReminder2: issued("invoice"),
  paymentReminder3: issued("invoice"),
  statement: statementSample,
};
