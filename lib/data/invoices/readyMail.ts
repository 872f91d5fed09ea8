import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { weekdayNames } from "@/lib/schemas/wishes";
import { customerLocale } from "@/lib/words/language";
import { wordsIn } from "@/lib/words/words";
import { bikeName } from "../bikes/bikeName";
import { type Reach, reachOf } from "../bookings/reach";
import { storedInvoice } from "../documents/invoice";
import { linkIn } from "../mail/customerLinks";
import { demandWritten, writeLetterIn } from "../mail/letters";
import { payText } from "../shop/account";
import { payAskOf } from "./paying";
import { INVOICE_ROW } from "./rows";

interface Asked {
  readonly jobId: number;
  /** The product's address. */
  readonly origin: string;
  readonly key?: string | undefined;
}

/** Writes the customer that their bike can be fetched, with the hours and a link to the job's page, into the mail queue. */
export async function mailReady(shop: ShopHandle, input: Asked): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "said that a bike is ready", input, () => writeIn(tx, shop, input)),
  );
}

async function writeIn(tx: ShopTx, shop: ShopHandle, { jobId, origin }: Asked): Promise<number> {
  const job = await tx.job.findUnique({
    where: { id: jobId },
    select: {
      number: true,
      title: true,
      state: true,
      customer: { select: { name: true, phone: true, email: true, language: true, noLetters: true } },
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  if (job.state !== "ready" && job.state !== "invoiced")
    throw new Refusal(`The work on job ${job.number} is not finished.`, "Finish it first.", {}, "conflict");
  const { customer } = job;
  const { locale } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
  const spoken = customerLocale(locale, customer.language);
  const { path } = await linkIn(tx, shop, "job", { jobId });
  const written = await writeLetterIn(tx, shop, {
    kind: "ready",
    to: customer,
    locale: spoken,
    values: {
      name: customer.name,
      bike: bikeName(job.bike),
      title: job.title,
      hours: hoursSaid(await reachOf({ read: tx }, spoken), spoken),
      link: `${origin}${path}`,
      ...(await toPayOf(tx, jobId, spoken)),
    },
    about: { noun: "job", nounId: jobId },
  });
  return demandWritten(written, customer);
}

/** What of a job's issued invoice is still to be paid, and how; empty where nothing is. */
export async function toPayOf(
  db: Pick<ShopTx, "invoice" | "bankAccount" | "settings">,
  jobId: number,
  locale: string,
): Promise<Pick<LetterValues<"ready">, "number" | "left" | "bankDetails">> {
  const row = await db.invoice.findFirst({
    where: {
      kind: "invoice",
      state: "issued",
      takenBack: false,
      OR: [{ jobId }, { furtherJobs: { some: { jobId } } }],
    },
    select: { ...INVOICE_ROW, frozen: true },
    orderBy: { id: "desc" },
  });
  const leftMinor = row ? outstanding({ ...row, credited: false }) : 0;
  if (!row || leftMinor <= 0) return { number: "", left: "", bankDetails: "" };
  const doc = storedInvoice(row.frozen);
  return {
    number: doc.written,
    left: formatMoney(leftMinor, doc.currency, locale),
    bankDetails: payText(await payAskOf(db, doc), locale),
  };
}

/** When somebody is there, a line for each day that has hours; nothing where none are known. */
export function hoursSaid({ hours }: Reach, locale: string): string {
  const say = wordsIn(locale);
  const names = weekdayNames(locale);
  const days = hours
    .filter((day) => day.spans.length > 0)
    .map(
      ({ weekday, spans }) =>
        `  ${names[weekday - 1]?.name}: ${spans.map((span) => say("links.between", span)).join(", ")}`,
    );
  return days.length > 0 ? [`${say("links.hours")}:`, ...days].join("\n") : "";
}
