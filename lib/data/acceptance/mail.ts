import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { type BookingWish, weekdayNames } from "@/lib/schemas/wishes";
import { customerLocale, type Language } from "@/lib/words/language";
import { type Said, wordsIn } from "@/lib/words/words";
import type { FrozenQuote } from "../documents/quote";
import { encloseQuoteIn } from "../mail/attachments";
import { type Addressee, writeLetterIn } from "../mail/letters";
import { payAskFor, payText } from "../shop/account";

interface Yes {
  readonly quoteId: number;
  readonly to: Addressee;
  readonly frozen: FrozenQuote;
  readonly hash: string;
  readonly job: string;
  readonly name: string;
  readonly wish: BookingWish | null;
  /** The language it was read in; empty where the yes was told to the desk. */
  readonly language: Language | "";
}

/** So much of a hash is compared by eye. */
const CHECKED = 16;

/** What the letter says that tells a yes back: what was agreed, what it comes to and the deposit. */
export function yesValues(yes: Omit<Yes, "to" | "quoteId">, howToPay: string): LetterValues<"yes"> {
  const { frozen, wish } = yes;
  const locale = customerLocale(frozen.locale, yes.language);
  const say = wordsIn(locale);
  const money = (minor: number) => formatMoney(minor, frozen.currency, locale);
  const asked = frozen.depositMinor > 0;
  return {
    name: frozen.customer.name,
    acceptedBy: yes.name,
    quote: String(frozen.number),
    bike: frozen.bike.name,
    work: frozen.options.map((o) => `- ${o.name}`).join("\n"),
    total: money(frozen.grossMinor),
    deposit: asked ? money(frozen.depositMinor) : "",
    bankDetails: asked ? howToPay : "",
    job: String(yes.job),
    wish: wish ? wishSaid(wish, say, locale) : "",
    follow: yes.language === "" ? "" : say("mails.follow"),
    check: yes.hash.slice(0, CHECKED),
  };
}

/** Says the yes back to the customer, with the quote itself as a PDF. */
export async function mailYes(tx: ShopTx, shop: ShopHandle, yes: Yes): Promise<void> {
  const { frozen } = yes;
  const { sequence } = await tx.quote.findUniqueOrThrow({
    where: { id: yes.quoteId },
    select: { sequence: true },
  });
  const ask = await payAskFor(tx, { kind: "deposit", number: sequence, written: frozen.number });
  const locale = customerLocale(frozen.locale, yes.language);
  const written = await writeLetterIn(tx, shop, {
    kind: "yes",
    to: yes.to,
    locale,
    values: yesValues(yes, payText(ask, locale)),
    about: { noun: "quote", nounId: yes.quoteId },
  });
  if ("mailId" in written) await encloseQuoteIn(tx, written.mailId, frozen);
}

/** A wish in one line, in the customer's language. */
function wishSaid({ fromDay, notDays, note }: BookingWish, say: Said, locale: string): string {
  const when = fromDay
    ? say("mails.wishFrom", { day: new Date(`${fromDay}T00:00:00Z`) })
    : say("mails.wishSoon");
  const names = weekdayNames(locale).filter((day) => notDays.includes(Number(day.value)));
  const days = new Intl.ListFormat(locale, { type: "disjunction" }).format(names.map((day) => day.name));
  const spared = days ? say("mails.wishNot", { when, days }) : when;
  return note ? say("mails.wishNote", { when: spared, note }) : spared;
}
