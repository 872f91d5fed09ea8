import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** Names of labour grades whose price of an hour the shop has not entered yet. */
export async function gradesWithoutRate(shop: ShopHandle): Promise<string[]> {
  const rows = await shop.read.labourGrade.findMany({
    where: { rateSet: false },
    select: { name: true },
    orderBy: { id: "asc" },
    take: 50,
  });
  return rows.map((row) => row.name);
}

/** What an hour of each grade costs and is charged at, for whoever prices work. */
export const gradeRates = (db: Pick<ShopTx, "labourGrade">) =>
  db.labourGrade.findMany({
    select: { code: true, name: true, ratePerHourMinor: true, costPerHourMinor: true, rateSet: true },
    orderBy: { id: "asc" },
    take: 50,
  });

/** What is put on a part's cost, by band, for whoever prices parts. */
export const markups = (db: Pick<ShopTx, "markupBand">) =>
  db.markupBand.findMany({ select: { upToE4: true, markupBp: true }, orderBy: { id: "asc" }, take: 50 });

/** Labour grades and markup bands: what a quote's price starts from. */
export async function priceBook(shop: ShopHandle) {
  const [grades, bands] = await Promise.all([
    shop.read.labourGrade.findMany({ orderBy: { id: "asc" } }),
    shop.read.markupBand.findMany({ orderBy: { id: "asc" } }),
  ]);
  return { grades, bands };
}

export interface GradeInput {
  readonly id: number | null;
  readonly version: number;
  readonly code: string;
  readonly name: string;
  readonly ratePerHourMinor: number;
  readonly costPerHourMinor: number;
}

export async function saveGrade(shop: ShopHandle, input: GradeInput): Promise<void> {
  const { id, version, ...typed } = input;
  const data = { ...typed, rateSet: true };
  await shop.write(async (tx) => {
    const sameCode = await tx.labourGrade.findUnique({ where: { code: data.code }, select: { id: true } });
    if (sameCode && sameCode.id !== id)
      throw new Refusal(`There is a grade with the code ${data.code} already.`, "Use another code.", {
        code: "Taken.",
      });
    if (id === null) {
      const row = await tx.labourGrade.create({ data, select: { id: true } });
      return audit(tx, shop, "added", "labour grade", row.id, data);
    }
    await demandOne(
      tx.labourGrade.updateMany({
        where: { id, version },
        data: { ...data, version: { increment: 1 } },
      }),
      () =>
        new Refusal(
          "Somebody else changed this grade in the meantime.",
          "Load the page again.",
          {},
          "conflict",
        ),
    );
    await audit(tx, shop, "changed", "labour grade", id, data);
  });
}

export async function saveBands(
  shop: ShopHandle,
  bands: readonly { upToE4: number | null; markupBp: number }[],
): Promise<void> {
  await shop.write(async (tx) => {
    await tx.markupBand.deleteMany({});
    for (const band of bands) await tx.markupBand.create({ data: band, select: { id: true } });
    await audit(tx, shop, "changed markup", "shop", null, { bands: bands.length });
  });
}
