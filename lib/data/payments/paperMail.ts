import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PrintedMoney } from "@/lib/domain/invoices/moneyPaper";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { moneyPaperWords } from "@/lib/words/moneyPaper";
import { frozenMoney } from "../documents/money";
import { encloseIn } from "../mail/attachments";
import { linkIn } from "../mail/customerLinks";
import { demandWritten, writeLetterIn } from "../mail/letters";
import { payText } from "../shop/account";
import { depositRequest, type MoneyPaper, paymentPaper } from "./papers";

interface Asked {
  /** The product's address. */
  readonly origin: string;
  readonly key?: string | undefined;
}

const LETTER = {
  depositRequest: "depositRequest",
  received: "paymentReceived",
  paidBack: "paidBack",
} as const;
const FILE = { depositRequest: "deposit-request", received: "payment", paidBack: "repayment" } as const;

/** The name of such a paper's file, without its ending. */
export const moneyFile = ({ kind, number }: PrintedMoney): string => `${FILE[kind]}-${number}`;

/** What a letter with such a paper says. */
export function moneyValues(printed: PrintedMoney, link: string): LetterValues<"depositRequest"> {
  const { locale, currency, totalMinor, ask, lines } = printed;
  const words = moneyPaperWords(locale);
  const [line] = lines;
  const title = line?.of === "invoice" ? words.invoice(line.number) : (line?.title ?? "");
  return {
    name: printed.buyer.name,
    title,
    amount: formatMoney(totalMinor, currency, locale),
    bankDetails: ask ? payText(ask, locale) : "",
    link,
  };
}

/** Writes the customer of a job that its deposit is to be paid, with the request as a PDF. */
export async function mailDepositRequest(
  shop: ShopHandle,
  input: Asked & { readonly jobId: number },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "asked for a deposit", input, async () =>
      writeIn(tx, shop, await depositRequest(tx, input.jobId, shop.now), input),
    ),
  );
}

/** Writes the customer that their money came in, or went back, with the receipt as a PDF. */
export async function mailPaymentPaper(
  shop: ShopHandle,
  input: Asked & { readonly paymentId: number },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "mailed a receipt", input, async () =>
      writeIn(tx, shop, await paymentPaper(tx, input.paymentId), input),
    ),
  );
}

async function writeIn(
  tx: ShopTx,
  shop: ShopHandle,
  { printed, jobId, customer }: MoneyPaper,
  { origin }: Asked,
): Promise<number> {
  const { path } = await linkIn(tx, shop, "job", { jobId });
  const written = await writeLetterIn(tx, shop, {
    kind: LETTER[printed.kind],
    to: customer,
    locale: printed.locale,
    values: moneyValues(printed, `${origin}${path}`),
    about: { noun: "job", nounId: jobId },
  });
  const mailId = demandWritten(written, customer);
  await encloseIn(tx, mailId, {
    noun: "money",
    nounId: jobId,
    form: "pdf",
    name: `${moneyFile(printed)}.pdf`,
    printed: frozenMoney(printed),
  });
  return mailId;
}
