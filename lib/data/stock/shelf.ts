import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";

/** Makes a bin a part's usual one; what lies elsewhere stays there. Refuses a version that is not the part's. */
export async function setHomeIn(
  tx: ShopTx,
  shop: ShopHandle,
  partId: number,
  version: number,
  bin: string,
): Promise<void> {
  const part = await tx.part.findUniqueOrThrow({
    where: { id: partId },
    select: {
      code: true,
      name: true,
      kind: true,
      family: true,
      supplier: true,
      supplierCode: true,
      bin: true,
    },
  });
  const { code, name, kind, family, supplier, supplierCode } = part;
  await demandOne(
    tx.part.updateMany({
      where: { id: partId, version },
      data: {
        bin,
        searchKey: searchKey(code, name, kind, family, supplier, supplierCode, bin),
        version: { increment: 1 },
      },
    }),
    () => new Refusal(`${code} was changed meanwhile.`, "Reload the part, then move it.", {}, "conflict"),
  );
  await audit(tx, shop, "changed", "part", partId, { changed: ["bin"], from: part.bin, to: bin });
}

/** Notes that another part does in place of this one. */
export async function addSubstitute(
  shop: ShopHandle,
  input: { partId: number; code: string; note: string },
): Promise<void> {
  await shop.write(async (tx) => {
    const other = await tx.part.findUnique({ where: { code: input.code }, select: { id: true, unit: true } });
    if (!other)
      throw new Refusal(`No part has the code ${input.code}.`, "Enter the code as it stands in stock.", {
        code: "No such part.",
      });
    if (other.id === input.partId)
      throw new Refusal("A part is no alternative to itself.", "Enter another part's code.", {
        code: "The same part.",
      });
    const part = await tx.part.findUniqueOrThrow({ where: { id: input.partId }, select: { unit: true } });
    if (part.unit !== other.unit)
      throw new Refusal(
        `${input.code} is counted in ${other.unit}, this part in ${part.unit}.`,
        "Choose one that is counted alike.",
        {
          code: "Counted otherwise.",
        },
      );
    await tx.partSubstitute.upsert({
      where: { partId_otherId: { partId: input.partId, otherId: other.id } },
      create: { partId: input.partId, otherId: other.id, note: input.note },
      update: { note: input.note },
      select: { id: true },
    });
    await audit(tx, shop, "changed", "part", input.partId, { changed: [`alternative ${input.code}`] });
  });
}

export async function dropSubstitute(
  shop: ShopHandle,
  input: { partId: number; otherId: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const { count } = await tx.partSubstitute.deleteMany({
      where: { partId: input.partId, otherId: input.otherId },
    });
    if (count > 0) await audit(tx, shop, "changed", "part", input.partId, { changed: ["alternatives"] });
  });
}

/** What does in place of a part, and who sells it; costs only where they may be seen. */
export async function supplyOf(shop: ShopHandle, partId: number, withCost: boolean) {
  const [substitutes, suppliers] = await Promise.all([
    shop.read.partSubstitute.findMany({
      where: { partId },
      select: {
        note: true,
        other: {
          select: { id: true, code: true, name: true, unit: true, onHandMilli: true, reservedMilli: true },
        },
      },
      orderBy: { id: "asc" },
      take: 40,
    }),
    shop.read.partSupplier.findMany({
      where: { partId },
      select: {
        id: true,
        code: true,
        packMilli: true,
        leastMilli: true,
        pricedOn: true,
        leadDays: true,
        usual: true,
        costE4: withCost,
        supplier: { select: { id: true, name: true, leadDays: true } },
      },
      orderBy: [{ usual: "desc" }, { id: "asc" }],
      take: 40,
    }),
  ]);
  return {
    substitutes: substitutes.map(({ other, note }) => ({
      ...other,
      note,
      freeMilli: other.onHandMilli - other.reservedMilli,
    })),
    suppliers: suppliers.map((row) => ({ ...row, costE4: row.costE4 ?? null })),
  };
}
