import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type KitPart, kitsFree } from "@/lib/domain/pricing/kit";
import type { PriceRules } from "@/lib/domain/pricing/lines";
import { partLine } from "@/lib/domain/pricing/partLines";
import { Refusal } from "@/lib/domain/refusal";
import { searchWords } from "@/lib/domain/searchKey";
import { taxMark } from "@/lib/domain/tax/rates";

const KIT = {
  id: true,
  code: true,
  name: true,
  fits: true,
  priceMinor: true,
  active: true,
  version: true,
  lines: {
    select: {
      quantityMilli: true,
      part: {
        select: {
          id: true,
          code: true,
          name: true,
          unit: true,
          active: true,
          onHandMilli: true,
          reservedMilli: true,
          priceE4: true,
          costE4: true,
          averageE4: true,
          taxCategory: true,
        },
      },
    },
    orderBy: { position: "asc" },
    take: 60,
  },
} satisfies Prisma.KitSelect;

type KitRow = Prisma.KitGetPayload<{ select: typeof KIT }>;

export interface KitView {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly fits: string;
  readonly priceMinor: number | null;
  readonly active: boolean;
  readonly version: number;
  readonly parts: readonly (KitPart & {
    readonly id: number;
    readonly name: string;
    readonly unit: string;
    readonly active: boolean;
    readonly freeMilli: number;
  })[];
  /** Whole kits that the free stock makes. */
  readonly free: number;
}

function viewOf({ lines, ...kit }: KitRow, book: PriceRules): KitView {
  const parts = lines.map(({ quantityMilli, part }) => {
    const mark = taxMark(part.taxCategory);
    const { line, unpriced } = partLine(
      {
        code: part.code,
        name: part.name,
        unit: part.unit,
        quantityMilli,
        unitCostE4: part.averageE4 ?? part.costE4,
        unitPriceE4: part.priceE4,
        ...(mark ? { taxMark: mark } : {}),
      },
      book,
    );
    const { id, code, name, unit, active } = part;
    const freeMilli = part.onHandMilli - part.reservedMilli;
    return {
      id,
      code,
      name,
      unit,
      active,
      quantityMilli,
      freeMilli,
      priceE4: unpriced ? null : line.unitPriceE4,
    };
  });
  return { ...kit, parts, free: kitsFree(parts) };
}

/** The kits of the shop by code, narrowed by words; those put away last. At most 200. */
export async function listKits(shop: ShopHandle, book: PriceRules, q = ""): Promise<KitView[]> {
  const rows = await shop.read.kit.findMany({
    where: { AND: searchWords(q).map((word) => ({ searchKey: { contains: word } })) },
    select: KIT,
    orderBy: [{ active: "desc" }, { code: "asc" }],
    take: 200,
  });
  return rows.map((row) => viewOf(row, book));
}

/** One kit; null where there is none. */
export async function getKit(shop: ShopHandle, id: number, book: PriceRules): Promise<KitView | null> {
  const row = await shop.read.kit.findUnique({ where: { id }, select: KIT });
  return row ? viewOf(row, book) : null;
}

/** The kit that a code means, and those that some words mean; at most five. */
export async function findKits(shop: ShopHandle, text: string, book: PriceRules): Promise<KitView[]> {
  const words = searchWords(text);
  if (words.length === 0) return [];
  const exact = await shop.read.kit.findFirst({
    where: { code: text.trim(), active: true },
    select: KIT,
    orderBy: { id: "asc" },
  });
  const rows = exact
    ? [exact]
    : await shop.read.kit.findMany({
        where: { active: true, AND: words.map((word) => ({ searchKey: { contains: word } })) },
        select: KIT,
        orderBy: { code: "asc" },
        take: 5,
      });
  return rows.map((row) => viewOf(row, book));
}

/** Names of the kits in use, to choose from. */
export async function kitsToName(
  shop: ShopHandle,
): Promise<readonly { readonly id: number; readonly code: string; readonly name: string }[]> {
  return shop.read.kit.findMany({
    where: { active: true },
    select: { id: true, code: true, name: true },
    orderBy: { code: "asc" },
    take: 200,
  });
}

/** A kit as a work or a package opens it: its price and its parts by code. Refuses one that is put away, or a part of it that is. */
export async function demandKitIn(tx: Pick<ShopTx, "kit">, id: number) {
  const kit = await tx.kit.findUnique({ where: { id }, select: KIT });
  if (!kit?.active) throw new Refusal("There is no such kit.", "Choose one from the list.", {}, "missing");
  const gone = kit.lines.find(({ part }) => !part.active);
  if (gone)
    throw new Refusal(
      `${gone.part.code} of this kit is put away.`,
      "Put another part into the kit, or bring this one back.",
    );
  return {
    code: kit.code,
    name: kit.name,
    priceMinor: kit.priceMinor,
    parts: kit.lines.map(({ quantityMilli, part }) => ({ code: part.code, quantityMilli })),
  };
}
