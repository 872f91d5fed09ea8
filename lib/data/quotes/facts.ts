import type { ShopTx } from "@/lib/db/shop";
import { weatherSpot } from "@/lib/domain/air/places";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { Work } from "@/lib/domain/packages/work";
import { composeWorks } from "@/lib/domain/quoting/composeWorks";
import type { PriceBook, QuoteFacts, ShopTerms } from "@/lib/domain/quoting/facts";
import { NO_TERMS } from "@/lib/domain/quoting/terms";
import { dayIn } from "@/lib/domain/schedule/days";
import { valuesOf } from "@/lib/domain/tuning/changes";
import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import { modelledParts } from "@/lib/domain/tuning/modelledParts";
import { ConditionsSchema } from "@/lib/schemas/quotes";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import { cardCalibration } from "../bikes/calibrations";
import { deliveredSettings, type ModelCardRow, modelFactsOf } from "../bikes/delivered";
import { fittedParts } from "../bikes/describedParts";
import { fittedOn } from "../bikes/fitted";
import { foundCarburettor } from "../bikes/found";
import { fittedNeedles, type KeptNeedle } from "../bikes/needles";
import { baselineAir } from "../common/air";
import { openIntake } from "../intakes/get";
import { gradeRates, markups } from "../shop/prices";
import { needleParts, shimsOnHand } from "./needleStock";
import { partRows } from "./partRows";

/** A reader or a transaction: facts are gathered the same way in both. */
export type Db = Pick<
  ShopTx,
  | "bike"
  | "settings"
  | "labourGrade"
  | "markupBand"
  | "part"
  | "orderLine"
  | "knownKey"
  | "settingSheet"
  | "fittedPart"
  | "quoteRevision"
  | "quoteWork"
  | "packageRevision"
  | "priceBook"
  | "calibration"
  | "job"
  | "step"
  | "intake"
>;

const NO_BOOK: PriceBook = { roundDownToMinor: 0, pricesFrom: null, pricesUntil: null };

export interface QuoteKey {
  readonly bikeId: number;
  readonly works: readonly Work[];
  readonly choices: readonly string[];
  readonly conditions: unknown;
  /** Stored terms of the revision; absent where it has none. */
  readonly terms?: unknown;
  readonly validUntil?: string;
  readonly now: Date;
  /** The job that a variation is for. */
  readonly jobId?: number | null;
}

/** Gathers a quote's facts in a fixed number of queries. */
export async function quoteFacts(db: Db, key: QuoteKey): Promise<QuoteFacts> {
  const { recipe, works, outside } = composeWorks(key.works);
  const agreed = storedTerms(key.terms);
  const terms = shopTerms(db);
  const [shop, bike, openings] = await Promise.all([
    shopSide(db, recipe, terms, agreed),
    bikeSide(db, key.bikeId, terms),
    key.jobId ? openingsOf(db, key.jobId) : [],
  ]);
  return {
    ...shop,
    ...bike,
    openings,
    recipe,
    ...(works.length > 0 ? { works, outside } : {}),
    agreed,
    validUntil: key.validUntil ?? "",
    today: dayIn(shop.terms.zone, key.now),
    choices: key.choices,
    conditions: ConditionsSchema.parse(key.conditions),
  };
}

/** What a bike brings to its quotes: its customer's terms, what is fitted to it, and what rides taught of it. */
async function bikeSide(db: Db, bikeId: number, terms: Promise<ShopTerms>) {
  const [bike, sheet, needles, parts, intake, home] = await Promise.all([
    db.bike.findUniqueOrThrow({ where: { id: bikeId }, select: BIKE }),
    fittedOn(db, bikeId),
    fittedNeedles(db, bikeId),
    fittedParts(db, bikeId),
    openIntake(db, bikeId),
    terms,
  ]);
  const { modelCard, carburettors, customer } = bike;
  const side = cardSide(modelCard, carburettors, sheet?.values ?? [], needles, parts);
  const baseline = baselineAir(sheet?.conditions, home.altitudeM, home);
  const learned = await cardCalibration({ read: db }, bike.modelCardId, {
    id: bikeId,
    card: side.card,
    delivered: valuesOf(deliveredSettings(modelCard)),
    carburettors: Math.max(1, side.carburettors.length),
    reference: {
      settings: valuesOf(side.carburettors[0]?.settings ?? {}),
      needle: side.carburettors[0]?.needle,
      ...modelledParts(side.carburettors[0]?.parts),
      air: baseline,
    },
  });
  return {
    ...customer,
    ...side,
    calibration: learned?.regions ?? null,
    baseline,
    measured: sheet !== null,
    complaints: intake?.observations ?? [],
  };
}

/** What a job opens anyhow: all that it has still to close. */
async function openingsOf(db: Db, jobId: number): Promise<string[]> {
  const rows = await db.step.findMany({
    where: { jobId, kind: "close", state: "todo" },
    select: { access: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  return rows.map((row) => row.access);
}

/** The same for a bike of a model card as it was delivered, belonging to nobody: to try a package on. */
export async function triedFacts(
  db: Db & Pick<ShopTx, "modelCard">,
  key: { cardId: number; recipe: Recipe; choices: readonly string[]; conditions: unknown },
): Promise<QuoteFacts | null> {
  const card = await db.modelCard.findUnique({ where: { id: key.cardId }, select: CARD });
  if (!card) return null;
  const shop = await shopSide(db, key.recipe, shopTerms(db));
  return {
    ...shop,
    ...cardSide(card, [], []),
    discountBp: 0,
    discountClass: "",
    recipe: key.recipe,
    agreed: NO_TERMS,
    validUntil: "",
    today: null,
    choices: key.choices,
    conditions: ConditionsSchema.parse(key.conditions),
    baseline: baselineAir(null, shop.terms.altitudeM, shop.terms),
    calibration: null,
    measured: false,
  };
}

/** What the shop brings to any quote of a recipe: terms, rates, markups, rounding, the parts it may take. */
async function shopSide(db: Db, recipe: Recipe, asked: Promise<ShopTerms>, agreed = NO_TERMS) {
  const [terms, grades, bands, priceBook, parts, shims, needles] = await Promise.all([
    asked,
    gradeRates(db),
    markups(db),
    db.priceBook.findUnique({
      where: { id: 1 },
      select: { roundDownToMinor: true, pricesFrom: true, pricesUntil: true },
    }),
    partRows(db, recipe, agreed),
    shimsOnHand(db),
    needleParts(db, recipe),
  ]);
  return { terms, grades, bands, priceBook: priceBook ?? NO_BOOK, parts, shims, needles };
}

async function shopTerms(db: Db): Promise<ShopTerms> {
  const settings = await db.settings.findUniqueOrThrow({ where: { id: 1 }, select: TERMS });
  return { ...settings, ...weatherSpot(settings) };
}

function cardSide(
  card: ModelCardRow & { readonly mainFamily: string; readonly pilotFamily: string },
  carburettors: readonly { position: number; label: string }[],
  values: readonly SheetValue[],
  needles?: ReadonlyMap<number, KeptNeedle>,
  parts?: ReadonlyMap<number, readonly DescribedPart[]>,
) {
  const counted = Array.from({ length: card.carburettors }, (_, i) => ({
    position: i + 1,
    label: String(i + 1),
  }));
  const named = carburettors.length > 0 ? carburettors : counted;
  const read = modelCardFacts(card);
  const fitted = {
    facts: card,
    card: read,
    values,
    ...(needles ? { needles } : {}),
    ...(parts ? { parts } : {}),
  };
  return {
    modelFacts: modelFactsOf(card),
    drawers: { mainJet: card.mainFamily, pilotJet: card.pilotFamily },
    card: read,
    carburettors: named.map((c) => foundCarburettor(c, fitted)),
    positions: named.map((c) => c.position),
  };
}

const CARD = {
  displacementCc: true,
  cylinders: true,
  carburettors: true,
  carburettorType: true,
  mainFamily: true,
  pilotFamily: true,
  facts: { select: { key: true, value: true, text: true, how: true }, orderBy: { key: "asc" } },
} as const;

const BIKE = {
  modelCardId: true,
  customer: { select: { discountBp: true, discountClass: true } },
  carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } },
  modelCard: { select: CARD },
} as const;

const TERMS = {
  currency: true,
  locale: true,
  zone: true,
  altitudeM: true,
  latitude: true,
  longitude: true,
  latitudeSouth: true,
  taxRegime: true,
  taxRateBp: true,
  taxLabour: true,
  taxParts: true,
  pricesIncludeTax: true,
  sundriesBp: true,
  sundriesMaxMinor: true,
  minimumMarginBp: true,
  depositBp: true,
} as const;

interface SheetValue {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly how: string;
}
