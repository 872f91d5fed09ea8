import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { speakTo } from "@/lib/data/customers/language";
import { storedQuote } from "@/lib/data/documents/quote";
import { textsOfPackage, textsOfShop } from "@/lib/data/packages/ownTexts";
import { previewQuote } from "@/lib/data/quotes/preview";
import { sendQuote } from "@/lib/data/quotes/send";
import { shownQuote } from "@/lib/data/quotes/shown";
import { shownText } from "@/lib/data/quotes/shownText";
import { offerExtras } from "@/lib/data/quotes/terms";
import { createQuote } from "@/lib/data/quotes/write";
import { phrasesOf, savePhrases } from "@/lib/data/shop/phrases";
import type { ShopHandle } from "@/lib/db/shop";
import type { Language } from "@/lib/words/language";
import { ORIGIN, type Ready, readyToQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const NORWEGIAN: Readonly<Record<string, string>> = {
  "Open-road breathing": "Pust for landevei",
  "Airbox opening, 48 mm": "Åpning i luftboksen, 48 mm",
  "Airbox opening, 48 mm, in plain words.": "Motoren får mer luft.",
  "Louder on the intake side.": "Mer lyd fra inntaket.",
  "Breather filter renewed": "Nytt pustefilter",
};

async function write(shop: ShopHandle, language: Language, texts: readonly string[], said: typeof NORWEGIAN) {
  const before = await phrasesOf(shop, language, texts);
  const typed = before.map(
    ({ key, source, version }) => [key, { said: said[source] ?? "", version }] as const,
  );
  return savePhrases(shop, language, before, Object.fromEntries(typed));
}

async function sentTo(shop: ShopHandle, ready: Ready, language: Language | "") {
  if (language) await speakTo(shop, { id: ready.customerId, language });
  const id = await createQuote(shop, { bikeId: ready.bikeId, packageId: ready.packageId });
  const preview = await previewQuote(shop, id);
  const { revisionId } = await sendQuote(shop, { id, version: 1, origin: ORIGIN });
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  return { id, revisionId, preview, frozen: storedQuote(row.frozen), hash: row.hash ?? "" };
}

describe("a shop's own words in another language", () => {
  it("are what its customers of that language read, on the preview as on the quote; all else is as it is", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a, 40);
    const theirs = await readyToQuote(b, 40);
    const found = await textsOfPackage(a, ready.packageId);
    expect(found?.texts).toEqual(expect.arrayContaining(Object.keys(NORWEGIAN)));
    expect(await write(a, "nb", found?.texts ?? [], NORWEGIAN)).toBe(Object.keys(NORWEGIAN).length);
    const english = await sentTo(a, ready, "en");
    expect(english.frozen.title).toBe("Open-road breathing");
    const { frozen, preview } = await sentTo(a, ready, "nb");
    expect(frozen).toMatchObject({ title: "Pust for landevei", locale: "nb-AU" });
    expect(frozen.options.map((option) => option.name)).toEqual([
      "Åpning i luftboksen, 48 mm",
      // Not written in Norwegian: read as it is.
      "Main jet to suit",
      "Nytt pustefilter",
    ]);
    expect(frozen.options[0]?.plain).toBe("Motoren får mer luft.");
    expect(frozen.cautions).toContain("Mer lyd fra inntaket.");
    expect(preview?.text).toEqual(shownText(frozen, preview?.text.today ?? ""));
    // What the floor reads stays in the shop's own words.
    expect(frozen.steps.map((step) => step.name)).toEqual(english.frozen.steps.map((step) => step.name));
    expect(frozen.grossMinor).toBe(english.frozen.grossMinor);
    const other = await sentTo(b, theirs, "nb");
    expect(other.frozen.title).toBe("Open-road breathing");
    expect(await phrasesOf(b, "nb", found?.texts ?? [])).toEqual(
      (found?.texts ?? []).map((source) => expect.objectContaining({ source, said: "", version: 0 })),
    );
  });

  it("hold for extras and for the yes, whose text is the one that was shown", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a, 40);
    await write(a, "nb", ["Spark and valve check"], { "Spark and valve check": "Plugg og ventiler" });
    await speakTo(a, { id: ready.customerId, language: "nb" });
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    await offerExtras(a, { id, version: 1, extras: ["check"] });
    const { revisionId } = await sendQuote(a, { id, version: 2, origin: ORIGIN });
    const shown = await shownQuote(a, revisionId, { extras: ["check"] }, "nb-AU");
    expect(shown?.extras).toMatchObject([{ name: "Plugg og ventiler", taken: true }]);
    const agreed = { revisionId, hash: shown?.hash ?? "", id, token: "" };
    await acceptQuote(a, { ...yes(agreed), extras: ["check"], language: "nb" });
    expect((await a.read.mail.findFirstOrThrow({ where: { letter: "yes" } })).text).toContain(
      "- Plugg og ventiler",
    );
  });

  it("are refused over somebody else's, and emptied they fall back", async () => {
    const { a } = await twoShops();
    const before = await phrasesOf(a, "nb", ["One", "Two"]);
    const typed = (said: string, version: number) =>
      Object.fromEntries(before.map((one) => [one.key, { said, version }]));
    expect(await savePhrases(a, "nb", before, typed("En", 0))).toBe(2);
    await expect(savePhrases(a, "nb", before, typed("Ein", 0))).rejects.toMatchObject({ kind: "conflict" });
    const now = await phrasesOf(a, "nb", ["One", "Two"]);
    expect(now.map((one) => [one.said, one.version])).toEqual([
      ["En", 1],
      ["En", 1],
    ]);
    expect(await savePhrases(a, "nb", now, typed("En", 1))).toBe(0);
    expect(await savePhrases(a, "nb", now, typed("", 1))).toBe(2);
    expect(await a.read.auditEntry.count({ where: { noun: "phrase" } })).toBe(4);
  });
});

describe("a shop's own terms", () => {
  it("stand on the quote as it was sent, in its customer's language, and change no earlier one", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a, 40);
    const plain = await sentTo(a, ready, "");
    expect(plain.frozen.ownTerms).toBeUndefined();
    const ownTerms = "You may withdraw within 14 days.";
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { ownTerms } }));
    expect((await textsOfShop(a)).texts[0]).toBe(ownTerms);
    await write(a, "nb", [ownTerms], { [ownTerms]: "Du kan angre innen 14 dager." });
    expect((await sentTo(a, ready, "en")).frozen.ownTerms).toBe(ownTerms);
    const sent = await sentTo(a, ready, "nb");
    expect(sent.frozen.ownTerms).toBe("Du kan angre innen 14 dager.");
    expect((await shownQuote(a, sent.revisionId))?.printed.ownTerms).toBe("Du kan angre innen 14 dager.");
    expect((await sentTo(b, await readyToQuote(b, 40), "")).frozen.ownTerms).toBeUndefined();
  });
});
