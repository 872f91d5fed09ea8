import { createHash } from "node:crypto";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { LANGUAGE_NAMES, type Language } from "@/lib/words/language";

/** A shop's phrases are read whole: a shop has some tens of packages, with some tens of texts each. */
const MOST = 5000;

/** A text's short name in forms and in the index: it may be longer than an index takes. */
const phraseKey = (source: string): string => createHash("sha256").update(source.trim()).digest("base64url");

/** Says the shop's own texts in a language: as the shop wrote them there, else as they are. */
export async function phrasebook(
  db: Pick<ShopTx, "phrase">,
  language: Language,
): Promise<(text: string) => string> {
  const rows = await db.phrase.findMany({
    where: { language, said: { not: "" } },
    select: { key: true, said: true },
    orderBy: { id: "asc" },
    take: MOST,
  });
  if (rows.length === 0) return (text) => text;
  const said = new Map(rows.map((row) => [row.key, row.said]));
  return (text) => (text === "" ? text : (said.get(phraseKey(text)) ?? text));
}

export interface Phrase {
  readonly key: string;
  readonly source: string;
  readonly said: string;
  /** 0 where it was never said in that language. */
  readonly version: number;
}

/** Some texts with what stands for them in a language. */
export async function phrasesOf(
  shop: ShopHandle,
  language: Language,
  sources: readonly string[],
): Promise<Phrase[]> {
  const keyed = sources.map((source) => ({ key: phraseKey(source), source }));
  const rows = await shop.read.phrase.findMany({
    where: { language, key: { in: keyed.map((one) => one.key) } },
    select: { key: true, said: true, version: true },
    orderBy: { id: "asc" },
  });
  const known = new Map(rows.map((row) => [row.key, row]));
  return keyed.map((one) => ({ said: "", version: 0, ...one, ...known.get(one.key) }));
}

/** Keeps what was typed for some of these texts; those left as they were are not touched. An empty one falls back to its source. */
export async function savePhrases(
  shop: ShopHandle,
  language: Language,
  before: readonly Phrase[],
  typed: Readonly<Record<string, { readonly said: string; readonly version: number }>>,
): Promise<number> {
  return shop.write(async (tx) => {
    let saved = 0;
    for (const { key, source, said: was } of before) {
      const now = typed[key];
      if (!now || now.said === was) continue;
      const conflict = () =>
        new Refusal(
          `Someone wrote “${source.slice(0, 60)}” in ${LANGUAGE_NAMES[language]} meanwhile. Nothing of yours was saved.`,
          "Open the page anew, and write yours over it.",
          {},
          "conflict",
        );
      const where = { language_key: { language, key } };
      if (now.version === 0) {
        if (await tx.phrase.findUnique({ where, select: { id: true } })) throw conflict();
        await tx.phrase.create({ data: { language, key, source, said: now.said }, select: { id: true } });
      } else
        await demandOne(
          tx.phrase.updateMany({
            where: { language, key, version: now.version },
            data: { said: now.said, version: { increment: 1 } },
          }),
          conflict,
        );
      saved += 1;
      await audit(tx, shop, "said", "phrase", null, { language, source, was, said: now.said });
    }
    return saved;
  });
}
