import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type KeptAlternative, turned } from "@/lib/domain/pricing/taxWithin";
import { Refusal } from "@/lib/domain/refusal";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import { chunks } from "../common/chunks";
import { storedQuote } from "../documents/quote";
import { WORKS } from "../packages/works";
import { type SettingsChange, saveSettingsIn } from "../shop/settings";
import type { FoundQuote } from "./rows";
import {
  hasAmounts,
  keptPrices,
  keptText,
  kitTurned,
  otherWay,
  rateOf,
  TAX_TERMS,
  type TaxTerms,
  turnedTerms,
  turnedWork,
} from "./taxInPrices";
import { turnPackages } from "./turnPackages";

export type SettingsWithPrices = SettingsChange & {
  pricesIncludeTax: boolean;
  /** What becomes of the kept prices where “prices include tax” is switched; empty where nobody said. */
  convertPrices?: "" | "convert" | "leave" | undefined;
};

/**
 * Saves how the shop works. Where that switches whether prices include tax, it must be said what becomes of the prices that are
 * kept: turned, so that customers go on paying the same, or left as the figures are. All of it is one act.
 */
export async function saveSettings(shop: ShopHandle, input: SettingsWithPrices): Promise<void> {
  const { convertPrices = "", ...change } = input;
  await shop.write(async (tx) => {
    const before = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: TAX_TERMS });
    if (before.pricesIncludeTax !== change.pricesIncludeTax) {
      const kept = await keptPrices(tx);
      if (convertPrices === "" && kept.example !== null)
        throw new Refusal(
          `This changes what ${keptText(kept)} mean: ${kept.example}.`,
          "Say whether the kept prices are turned, so that customers pay the same, or left as they are.",
          { convertPrices: "Choose what becomes of the kept prices." },
        );
      if (convertPrices === "convert") await turnIn(tx, shop, before);
      await audit(tx, shop, "switched tax in prices", "shop", null, {
        pricesIncludeTax: change.pricesIncludeTax,
        converted: convertPrices === "convert",
        parts: kept.parts,
        kits: kept.kits,
        rates: kept.rates,
        fixedPrices: kept.fixedPrices,
        draftQuotes: kept.draftQuotes,
      });
    }
    await saveSettingsIn(tx, shop, change);
  });
}

/** Turns every kept price to the other way, at the rates that it was kept under. */
async function turnIn(tx: ShopTx, shop: ShopHandle, terms: TaxTerms): Promise<void> {
  const to = otherWay(terms);
  await turnParts(tx, terms, to);
  for (const { id, ratePerHourMinor } of await tx.labourGrade.findMany({
    select: { id: true, ratePerHourMinor: true },
    orderBy: { id: "asc" },
    take: 200,
  }))
    await tx.labourGrade.update({
      where: { id },
      data: {
        ratePerHourMinor: turned(ratePerHourMinor, rateOf(terms, "labour"), to),
        version: { increment: 1 },
      },
      select: { id: true },
    });
  if (terms.sundriesMaxMinor !== null)
    await tx.settings.update({
      where: { id: 1 },
      data: { sundriesMaxMinor: turned(terms.sundriesMaxMinor, rateOf(terms, "sundries"), to) },
      select: { id: true },
    });
  await turnKits(tx, terms, to);
  await turnPackages(tx, shop, terms, to);
  await turnDrafts(tx, terms, to);
}

async function turnParts(tx: ShopTx, terms: TaxTerms, to: KeptAlternative): Promise<void> {
  const rows = await tx.part.findMany({
    // What is marked as not taxed shows the same either way.
    where: { priceE4: { not: null }, taxCategory: "" },
    select: { id: true, priceE4: true },
    orderBy: { id: "asc" },
  });
  for (const [price, same] of Map.groupBy(rows, (row) => row.priceE4 ?? 0))
    for (const ids of chunks(same.map((row) => row.id)))
      await tx.part.updateMany({
        where: { id: { in: ids } },
        data: { priceE4: turned(price, rateOf(terms, "part"), to), version: { increment: 1 } },
      });
}

async function turnKits(tx: ShopTx, terms: TaxTerms, to: KeptAlternative): Promise<void> {
  const kits = await tx.kit.findMany({
    where: { priceMinor: { not: null } },
    select: { id: true, priceMinor: true },
    orderBy: { id: "asc" },
  });
  for (const { id, priceMinor } of kits)
    await tx.kit.update({
      where: { id },
      data: { priceMinor: kitTurned(priceMinor ?? 0, terms, to), version: { increment: 1 } },
      select: { id: true },
    });
}

/**
 * A revision as a new one is made from it: where prices were switched since it was sent, its amounts as the customer was shown them
 * turned to today's way, and the package's revision whose fixed prices were turned.
 */
export async function asKeptNow(
  tx: ShopTx,
  revision: FoundQuote["revision"],
): Promise<FoundQuote["revision"]> {
  if (revision.frozen === null) return revision;
  const terms = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: TAX_TERMS });
  if (storedQuote(revision.frozen).pricesIncludeTax === terms.pricesIncludeTax) return revision;
  const way = terms.pricesIncludeTax ? "with tax" : "without tax";
  const works = [];
  for (const work of revision.works)
    works.push({
      ...work,
      ...(work.kind === "written" ? { data: turnedWork(work.data, terms, way) } : {}),
      packageRevision: work.packageRevision && (await lastTurned(tx, work.packageRevision)),
    });
  const agreed = storedTerms(revision.terms);
  const now = hasAmounts(agreed)
    ? (turnedTerms(agreed, terms, way) as unknown as Prisma.JsonObject)
    : revision.terms;
  return { ...revision, works, terms: now };
}

type PackageRow = NonNullable<FoundQuote["revision"]["works"][number]["packageRevision"]>;

/** The last of the revisions that were made of one by turning its fixed prices. */
async function lastTurned(tx: ShopTx, revision: PackageRow): Promise<PackageRow> {
  const next = await tx.packageRevision.findFirst({
    where: { convertedFrom: revision.id },
    select: WORKS.select.packageRevision.select,
    orderBy: { id: "desc" },
  });
  return next ? lastTurned(tx, next) : revision;
}

async function turnDrafts(tx: ShopTx, terms: TaxTerms, to: KeptAlternative): Promise<void> {
  const drafts = await tx.quoteRevision.findMany({
    where: { frozenAt: null, quote: { state: "draft" } },
    select: {
      id: true,
      quoteId: true,
      terms: true,
      works: { where: { kind: "written" }, select: { id: true, data: true }, orderBy: { id: "asc" } },
    },
    orderBy: { id: "asc" },
  });
  for (const { id, quoteId, terms: stored, works } of drafts) {
    const agreed = storedTerms(stored);
    if (!hasAmounts(agreed) && works.length === 0) continue;
    for (const work of works)
      await tx.quoteWork.update({
        where: { id: work.id },
        data: { data: turnedWork(work.data, terms, to) },
        select: { id: true },
      });
    await tx.quoteRevision.update({
      where: { id },
      data: { terms: turnedTerms(agreed, terms, to) as unknown as Prisma.InputJsonObject },
      select: { id: true },
    });
    await tx.quote.update({
      where: { id: quoteId },
      data: { version: { increment: 1 } },
      select: { id: true },
    });
  }
}
