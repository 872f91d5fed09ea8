import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import type { PartNeed, Recipe } from "@/lib/domain/packages/recipe";
import type { QuotePartRow } from "@/lib/domain/quoting/facts";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import { NO_TERMS, type QuoteTerms } from "@/lib/domain/quoting/terms";
import { unclaimed } from "@/lib/domain/stock/arrival";
import { MOST_REPLACEMENTS } from "@/lib/domain/stock/replaced";
import { taxMark } from "@/lib/domain/tax/rates";
import { mergedCodes, underRecipeCodes } from "../common/mergedCodes";
import { comingOf } from "../orders/expected";
import { shortOf } from "../stock/shortages";

/** Every part that any option of the recipe could need or a line by hand names, with the whole drawer of each jet family. */
export async function partRows(
  db: Pick<ShopTx, "part" | "orderLine" | "knownKey">,
  recipe: Recipe,
  agreed: QuoteTerms = NO_TERMS,
): Promise<QuotePartRow[]> {
  const all: readonly PartNeed[] = [...recipe.options, ...recipe.operations].flatMap((o) => o.parts);
  const byHand = handPartsOf(agreed).map((part) => part.code);
  const codes = [...new Set([...all.flatMap((n) => (n.kind === "part" ? [n.code] : [])), ...byHand])];
  const families = [...new Set(all.flatMap((n) => (n.kind === "jet" ? [n.family] : [])))];
  const merged = await mergedCodes(db, codes);
  const named = await db.part.findMany({
    where: {
      OR: [
        { code: { in: codes } },
        { id: { in: [...merged.values()] } },
        { family: { in: families }, kind: "jet", active: true },
      ],
    },
    select: ROW,
    orderBy: { code: "asc" },
    take: 2000,
  });
  const rows = [...named, ...(await replacementsOf(db, named))];
  const ordered = rows.filter((row) => row.onOrderMilli > 0).map((row) => row.id);
  const coming = await comingOf({ read: db }, ordered);
  return underRecipeCodes(rows, merged).map(
    ({
      averageE4,
      onHandMilli,
      reservedMilli,
      supplier,
      active,
      reservations,
      taxCategory,
      ...row
    }): QuotePartRow => ({
      ...row,
      ...(taxCategory === "" ? {} : { taxMark: taxMark(taxCategory) }),
      costE4: averageE4 ?? row.costE4,
      freeMilli: Math.max(0, onHandMilli - reservedMilli),
      coming: unclaimed(
        (coming.get(row.id) ?? []).map(({ openMilli, dueOn, jobId }) => ({ openMilli, dueOn, jobId })),
        reservations.map((r) => ({ jobId: r.jobId, shortMilli: shortOf(r) })),
      ),
      orderable: active && (supplier !== "" || row.leadDays !== null || row.onOrderMilli > 0),
    }),
  );
}

/** The parts that took the place of some, with those that took theirs: what is left of the old ones is used first. */
async function replacementsOf(db: Pick<ShopTx, "part">, named: readonly Row[]): Promise<Row[]> {
  const known = new Set(named.map(({ id }) => id));
  const found: Row[] = [];
  let asked = nextOf(named, known);
  for (let n = 0; asked.length > 0 && n < MOST_REPLACEMENTS; n++) {
    const rows = await db.part.findMany({
      where: { id: { in: asked } },
      select: ROW,
      orderBy: { code: "asc" },
      take: 999,
    });
    for (const { id } of rows) known.add(id);
    found.push(...rows);
    asked = nextOf(rows, known);
  }
  return found;
}

const nextOf = (rows: readonly Row[], known: ReadonlySet<number>): number[] => [
  ...new Set(
    rows.flatMap(({ replacedById }) =>
      replacedById !== null && !known.has(replacedById) ? [replacedById] : [],
    ),
  ),
];

const ROW = {
  id: true,
  code: true,
  name: true,
  kind: true,
  unit: true,
  family: true,
  sizeMilli: true,
  convention: true,
  costE4: true,
  averageE4: true,
  priceE4: true,
  priceUntil: true,
  taxCategory: true,
  onHandMilli: true,
  reservedMilli: true,
  onOrderMilli: true,
  leadDays: true,
  supplier: true,
  active: true,
  replacedById: true,
  reservations: {
    where: { state: "held" },
    select: { jobId: true, wantedMilli: true, reservedMilli: true, usedMilli: true },
    orderBy: { id: "asc" },
  },
} satisfies Prisma.PartSelect;

type Row = Prisma.PartGetPayload<{ select: typeof ROW }>;
