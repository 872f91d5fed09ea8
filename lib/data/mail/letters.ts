import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type COMMON, type LetterKind, type LetterValues, letterOf } from "@/lib/domain/letters/kinds";
import { fillLetter, type LetterText } from "@/lib/domain/letters/template";
import { Refusal } from "@/lib/domain/refusal";
import { type Language, languageOf } from "@/lib/words/language";
import { letters } from "@/lib/words/letters";
import { wordsIn } from "@/lib/words/words";

/** Whom a letter would go to, as far as it is decided by that. */
export interface Addressee {
  /** Empty where none is known. */
  readonly email: string;
  readonly noLetters: boolean;
}

/** Why a letter is not written: the shop has it off, the customer wants none, or no address is known. */
export type Withheld = "off" | "noLetters" | "noAddress";
export type Written = { readonly mailId: number } | { readonly withheld: Withheld };

interface ToWrite<K extends LetterKind> {
  readonly kind: K;
  readonly to: Addressee;
  /** The locale that the customer is spoken to in. */
  readonly locale: string;
  readonly values: LetterValues<K>;
  readonly about: {
    readonly noun: "quote" | "job" | "booking" | "invoice" | "customer";
    readonly nounId: number;
  };
}

type Reader = Pick<ShopTx, "letter" | "letterText" | "settings">;

/** Whether a letter is on, and when the rounds write it: what the shop chose, else as it comes. */
export async function letterChoice(db: Pick<ShopTx, "letter">, kind: LetterKind) {
  const chosen = await db.letter.findUnique({
    where: { kind },
    select: { on: true, days: true, version: true },
  });
  const { on, days = null } = letterOf(kind);
  return chosen ?? { on, days, version: 0 };
}

/** Why nothing would be written to this customer; null where it would. */
export async function withheldFrom(
  db: Pick<ShopTx, "letter">,
  kind: LetterKind,
  to: Addressee,
): Promise<Withheld | null> {
  if (to.noLetters) return "noLetters";
  if (!(await letterChoice(db, kind)).on) return "off";
  return to.email === "" ? "noAddress" : null;
}

/** A letter's words in a language: the shop's own where it has some, else ours. */
async function wordsOfLetter(
  db: Pick<ShopTx, "letterText">,
  kind: LetterKind,
  language: Language,
): Promise<LetterText> {
  const own = await db.letterText.findUnique({
    where: { kind_language: { kind, language } },
    select: { subject: true, text: true },
  });
  return own && own.text !== "" ? own : letters[language][kind];
}

/** What every letter may say of the shop, by placeholder. */
export async function commonValues(
  db: Pick<ShopTx, "settings">,
  locale: string,
): Promise<Record<(typeof COMMON)[number], string>> {
  const { name, phone, address } = await db.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, phone: true, address: true },
  });
  const say = wordsIn(locale);
  return {
    shop: name,
    phone,
    address,
    reach: phone ? say("mails.call", { phone }) : say("mails.answerThis"),
  };
}

/** A letter as it would be read now, waiting for its values: what it is made of can be read beside them. */
export async function letterToFill<K extends LetterKind>(
  db: Reader,
  kind: K,
  locale: string,
): Promise<(values: LetterValues<K>) => LetterText> {
  const [words, common] = await Promise.all([
    wordsOfLetter(db, kind, languageOf(locale)),
    commonValues(db, locale),
  ]);
  return (values) => fillLetter(words, { ...values, ...common });
}

/** No subject is longer (RFC 5322, 2.1.1: 998 on the wire; judgement for the reader). */
const MOST_SUBJECT = 200;

/** The one way a customer is written to: into the mail queue, unless it is withheld. */
export async function writeLetterIn<K extends LetterKind>(
  tx: ShopTx,
  shop: ShopHandle,
  letter: ToWrite<K>,
): Promise<Written> {
  const withheld = await withheldFrom(tx, letter.kind, letter.to);
  if (withheld) return { withheld };
  const { subject, text } = (await letterToFill(tx, letter.kind, letter.locale))(letter.values);
  const mail = await tx.mail.create({
    data: {
      to: letter.to.email,
      subject: subject.slice(0, MOST_SUBJECT),
      text,
      letter: letter.kind,
      language: languageOf(letter.locale),
      ...letter.about,
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await audit(tx, shop, "wrote", "mail", mail.id, { letter: letter.kind, ...letter.about });
  return { mailId: mail.id };
}

/** The letter that a person asked for; a refusal, with what to do in its place, where it is withheld. */
export function demandWritten(written: Written, customer: { name: string; phone: string }): number {
  if ("mailId" in written) return written.mailId;
  const { message, remedy } = inPlaceOf(written.withheld, customer);
  throw new Refusal(message, remedy);
}

/** Why no letter goes, and what the desk does in its place; `link`: what it would have brought can be handed over. */
export function inPlaceOf(
  withheld: Withheld,
  { name, phone }: { readonly name: string; readonly phone: string },
  link = true,
): { readonly message: string; readonly remedy: string } {
  const acts = [...(phone ? [`call ${phone}`] : []), ...(link ? ["hand over the link"] : [])];
  const instead = acts.length > 0 ? acts.join(", or ") : "tell them when they come";
  const remedy = `${instead.charAt(0).toUpperCase()}${instead.slice(1)}.`;
  if (withheld === "noLetters")
    return { message: `${name || "This customer"} wants no letters, so none is written.`, remedy };
  if (withheld === "off")
    return { message: "This letter is switched off.", remedy: `${remedy} Shop > Letters switches it on.` };
  return {
    message: "This customer has no mail address.",
    remedy: phone ? remedy : `Enter it on the customer's page. ${remedy}`,
  };
}

/** True where such a letter was written about this already. */
export async function wasWritten(
  db: Pick<ShopTx, "mail">,
  kind: LetterKind,
  about: ToWrite<LetterKind>["about"],
  since?: Date,
): Promise<boolean> {
  const found = await db.mail.findFirst({
    where: { letter: kind, ...about, ...(since ? { createdAt: { gte: since } } : {}) },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return found !== null;
}
