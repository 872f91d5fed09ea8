import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { formatMoney } from "@/lib/domain/money/format";
import { type BookingWish, weekdayNames } from "@/lib/schemas/wishes";
import { customerLocale } from "@/lib/words/language";
import { type Said, wordsIn } from "@/lib/words/words";
import type { FrozenQuote } from "../documents/quote";
import { encloseQuoteIn } from "../mail/attachments";

interface Yes {
  /** Empty where no address is known: then nothing is written. */
  readonly to: string;
  readonly frozen: FrozenQuote;
  readonly hash: string;
  readonly job: string;
  readonly name: string;
  readonly wish: BookingWish | null;
  /** The language it was read in; empty where the yes was told to the desk. */
  readonly language: string;
}

/** So much of a hash is compared by eye. */
const CHECKED = 16;

/** Says the yes back to the customer: what was agreed, what it comes to, the deposit, and the quote itself as a PDF. */
export async function mailYes(tx: ShopTx, shop: ShopHandle, yes: Yes): Promise<void> {
  const { to, frozen, job, name, wish } = yes;
  if (!to) return;
  const locale = customerLocale(frozen.locale, yes.language);
  const say = wordsIn(locale);
  const money = (minor: number) => formatMoney(minor, frozen.currency, locale);
  const number = String(frozen.number);
  const { bankDetails } = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { bankDetails: true },
  });
  const deposit =
    frozen.depositMinor > 0
      ? ["", say("mails.yesDeposit", { amount: money(frozen.depositMinor), reference: number }), bankDetails]
      : [];
  const lines = [
    say("mails.hello", { name: frozen.customer.name }),
    "",
    say("mails.yes", { name, number, bike: frozen.bike.name }),
    ...frozen.options.map((o) => `- ${o.name}`),
    say("mails.total", { total: money(frozen.grossMinor) }),
    ...deposit.filter((line, at) => at === 0 || line !== ""),
    "",
    wish
      ? say("mails.yesJobWish", { job: String(job), wish: wishSaid(wish, say, locale) })
      : say("mails.yesJob", { job: String(job) }),
    ...(yes.language === "" ? [] : ["", say("mails.yesFollow")]),
    "",
    say("mails.yesCopy", { hash: yes.hash.slice(0, CHECKED) }),
    "",
    frozen.shop.name,
    frozen.shop.phone,
  ];
  const mail = await tx.mail.create({
    data: {
      to,
      subject: say("mails.yesSubject", { number }),
      text: lines.join("\n").trim(),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await encloseQuoteIn(tx, mail.id, frozen);
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
