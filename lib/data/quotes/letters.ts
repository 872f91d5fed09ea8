import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { LetterKind, LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { wordsIn } from "@/lib/words/words";
import type { FrozenQuote } from "../documents/quote";
import { encloseQuoteIn } from "../mail/attachments";
import { type Addressee, type Written, writeLetterIn } from "../mail/letters";

/** What a letter about a sent quote says, with the link that opens it. */
export function quoteValues(frozen: FrozenQuote, link: string): LetterValues<"quote"> {
  const say = wordsIn(frozen.locale);
  return {
    name: frozen.customer.name,
    quote: String(frozen.number),
    title: frozen.title,
    bike: frozen.bike.name,
    total: formatMoney(frozen.grossMinor, frozen.currency, frozen.locale),
    choices: choicesTold(frozen),
    validUntil: say("mails.day", { day: new Date(`${frozen.validUntil}T00:00:00Z`) }),
    link,
  };
}

/** The ways to choose from, with what each comes to. */
function choicesTold({ alternatives = [], currency, locale }: FrozenQuote): string {
  if (alternatives.length === 0) return "";
  const say = wordsIn(locale);
  const named = alternatives.map((w) => {
    const name = [w.letter, w.name].filter(Boolean).join(", ") || say("quotePage.asQuoted");
    return `- ${name}: ${formatMoney(w.grossMinor, currency, locale)}`;
  });
  return [say("mails.choose"), ...named].join("\n");
}

interface About {
  readonly quoteId: number;
  readonly to: Addressee;
  readonly frozen: FrozenQuote;
  readonly link: string;
}

/** Writes that a quote is there, or more work on a job; its paper goes along. */
export async function mailQuoteIn(
  tx: ShopTx,
  shop: ShopHandle,
  { quoteId, to, frozen, link, job }: About & { job: string | null },
): Promise<Written> {
  const values = quoteValues(frozen, link);
  const about = { noun: "quote", nounId: quoteId } as const;
  const letter = { to, locale: frozen.locale, about } as const;
  const written =
    job === null
      ? await writeLetterIn(tx, shop, { ...letter, kind: "quote", values })
      : await writeLetterIn(tx, shop, {
          ...letter,
          kind: "variation",
          values: { ...values, job: String(job) },
        });
  if ("mailId" in written) await encloseQuoteIn(tx, written.mailId, frozen);
  return written;
}

/** Writes that a quote still waits, with a further link, and with words of whoever reminds. */
export async function mailReminderIn(
  tx: ShopTx,
  shop: ShopHandle,
  { quoteId, to, frozen, link, words }: About & { words: string },
): Promise<Written> {
  const written = await writeLetterIn(tx, shop, {
    kind: "reminder",
    to,
    locale: frozen.locale,
    values: { ...quoteValues(frozen, link), words },
    about: { noun: "quote", nounId: quoteId },
  });
  if ("mailId" in written) await encloseQuoteIn(tx, written.mailId, frozen);
  return written;
}

/** The letter that is due in a state: the quote itself, a reminder once it is out, the copy of a yes. */
export function letterDue({ state, variationOf }: { state: string; variationOf: object | null }): LetterKind {
  if (state === "accepted") return "yes";
  return state === "sent" ? "reminder" : variationOf ? "variation" : "quote";
}
