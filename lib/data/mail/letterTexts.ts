import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { LETTER_KINDS, type LetterKind, letterOf } from "@/lib/domain/letters/kinds";
import { type LetterText, letterFaults } from "@/lib/domain/letters/template";
import { Refusal } from "@/lib/domain/refusal";
import { LANGUAGE_NAMES, LANGUAGES, type Language } from "@/lib/words/language";
import { letters } from "@/lib/words/letters";
import { letterChoice } from "./letters";

/** Every letter with whether it is on, when the rounds write it, and the languages in which the shop has words of its own. */
export async function listLetters(shop: ShopHandle) {
  const chosen = await shop.read.letter.findMany({ orderBy: { kind: "asc" } });
  const own = await shop.read.letterText.findMany({
    where: { text: { not: "" } },
    select: { kind: true, language: true },
    orderBy: { id: "asc" },
  });
  return LETTER_KINDS.map((kind) => {
    const { title, when, on, days } = letterOf(kind);
    const choice = chosen.find((one) => one.kind === kind) ?? { on, days: days ?? null };
    const edited = LANGUAGES.filter((language) =>
      own.some((one) => one.kind === kind && one.language === language),
    );
    return { kind, title, when, on: choice.on, days: days === undefined ? null : choice.days, edited };
  });
}

/** One letter with its words in every language, as they are written now. */
export async function getLetter(shop: ShopHandle, kind: LetterKind) {
  const rows = await shop.read.letterText.findMany({ where: { kind }, orderBy: { id: "asc" } });
  const texts = LANGUAGES.map((language) => {
    const row = rows.find((one) => one.language === language);
    const own = row !== undefined && row.text !== "";
    const { subject, text } = own ? row : letters[language][kind];
    return { language, subject, text, own, version: row?.version ?? 0 };
  });
  return { kind, ...letterOf(kind), ...(await letterChoice(shop.read, kind)), texts };
}

interface Which {
  readonly kind: LetterKind;
  readonly language: Language;
  /** As the form was drawn with; 0 where the shop never wrote it. */
  readonly version: number;
}

/** Keeps a shop's own words of a letter, once their placeholders are found right. */
export async function saveLetter(shop: ShopHandle, input: Which & LetterText): Promise<void> {
  const { kind, language, subject, text, version } = input;
  const faults = letterFaults(kind, { subject, text });
  if (Object.keys(faults).length > 0)
    throw new Refusal("This letter cannot be sent as it is.", "Look at what is marked.", faults);
  await shop.write(async (tx) => {
    const was = await keepIn(tx, { kind, language, version }, { subject, text });
    await audit(tx, shop, "changed", "letter", null, {
      letter: kind,
      language,
      version: version + 1,
      was: { ...was },
    });
  });
}

/** Puts a letter's words back to ours; the shop's stay in the audit trail. */
export async function resetLetter(shop: ShopHandle, input: Which): Promise<void> {
  const { kind, language, version } = input;
  if (version === 0)
    throw new Refusal("This letter is as it comes already.", "Nothing needs putting back.", {}, "conflict");
  await shop.write(async (tx) => {
    const was = await keepIn(tx, input, { subject: "", text: "" });
    await audit(tx, shop, "put back", "letter", null, {
      letter: kind,
      language,
      version: version + 1,
      was: { ...was },
    });
  });
}

/** Writes over the version that was seen; answers the words that stood there, empty where they were ours. */
async function keepIn(
  tx: ShopTx,
  { kind, language, version }: Which,
  words: LetterText,
): Promise<LetterText> {
  const where = { kind_language: { kind, language } };
  const before = await tx.letterText.findUnique({ where, select: { subject: true, text: true } });
  const conflict = () =>
    new Refusal(
      `Someone changed this letter in ${LANGUAGE_NAMES[language]} while you were typing. Nothing of yours was saved.`,
      "Copy what you typed, open the page anew, and change it from there.",
      {},
      "conflict",
    );
  if (version === 0) {
    if (before) throw conflict();
    await tx.letterText.create({ data: { kind, language, ...words }, select: { id: true } });
    return { subject: "", text: "" };
  }
  await demandOne(
    tx.letterText.updateMany({
      where: { kind, language, version },
      data: { ...words, version: { increment: 1 } },
    }),
    conflict,
  );
  return before ?? { subject: "", text: "" };
}

/** Switches a letter on or off, and says after how many days the rounds write it. */
export async function switchLetter(
  shop: ShopHandle,
  input: { kind: LetterKind; on: boolean; days: number | null; version: number },
): Promise<void> {
  const { kind, on, version } = input;
  // Only a letter that the rounds write by days has any.
  const days = letterOf(kind).days === undefined ? null : input.days;
  await shop.write(async (tx) => {
    const before = await letterChoice(tx, kind);
    const conflict = () =>
      new Refusal("Someone switched this letter meanwhile.", "Look at it as it stands now.", {}, "conflict");
    if (before.version !== version) throw conflict();
    if (version === 0) await tx.letter.create({ data: { kind, on, days }, select: { kind: true } });
    else
      await demandOne(
        tx.letter.updateMany({ where: { kind, version }, data: { on, days, version: { increment: 1 } } }),
        conflict,
      );
    await audit(tx, shop, "switched", "letter", null, { letter: kind, on, days });
  });
}
