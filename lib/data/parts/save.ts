import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { NewPartInput, PartInput } from "@/lib/schemas/parts";
import { keptInstead, mergedOrMissing } from "../common/merged";
import { usualIn } from "../orders/offers";
import { putOnOrderIn } from "../orders/place";
import { supplierNamedIn } from "../orders/suppliers";
import { gatherIn } from "../stock/betweenBins";
import { demandMayCost } from "../stock/mayCost";
import { recordMoveIn } from "../stock/moves";
import { demandQuantity } from "../stock/quantity";
import { replacementIn } from "../stock/replacements";

type Fields = Omit<NewPartInput, "opening" | "moveAll">;

function columns(input: Fields) {
  return {
    code: input.code,
    name: input.name,
    kind: input.kind,
    unit: input.unit,
    family: input.family,
    sizeMilli: input.size,
    convention: input.convention,
    supplier: input.supplier,
    supplierCode: input.supplierCode,
    bin: input.bin,
    leadDays: input.leadDays ?? null,
    priceE4: input.price,
    ...(input.priceUntil === undefined ? {} : { priceUntil: input.priceUntil }),
    ...(input.taxMark === undefined ? {} : { taxCategory: input.taxMark }),
    pointMilli: input.point ?? 0,
    ...(input.top === undefined ? {} : { topMilli: input.top }),
    searchKey: searchKey(
      input.code,
      input.name,
      input.kind,
      input.family,
      input.supplier,
      input.supplierCode,
      input.bin,
    ),
    ...(input.cost === undefined ? {} : { costE4: input.cost }),
  };
}

/** Adds a part, with its opening stock if it has any. Returns its id. */
export async function createPart(shop: ShopHandle, input: NewPartInput, key?: string): Promise<number> {
  demandMayCost(shop, input.cost);
  return shop.write((tx) =>
    once(tx, shop, "added a part", { ...input, key }, async () => {
      await demandFreeCode(tx, input.code);
      const replaced = await replacedIn(tx, { id: null, ...input });
      const made = await tx.part.create({
        data: { ...columns(input), ...replaced, createdAt: shop.now },
        select: { id: true },
      });
      await supplyIn(tx, shop, made.id, input);
      await audit(tx, shop, "added", "part", made.id, { code: input.code });
      if (input.opening) {
        demandQuantity(input.opening, input.unit);
        await recordMoveIn(tx, shop, {
          partId: made.id,
          kind: "opening",
          quantityMilli: input.opening,
          unitCostE4: input.cost,
        });
      }
      return made.id;
    }),
  );
}

/**
 * Changes a part. Its unit stays once it has moved: the ledger is written in it. Where its usual bin changes, what lies
 * there stays until it is moved, unless `moveAll` is asked for; what lay in no bin is in the first one it gets.
 */
export async function changePart(shop: ShopHandle, input: PartInput): Promise<void> {
  demandMayCost(shop, input.cost);
  await shop.write(async (tx) => {
    const before = await tx.part.findUnique({ where: { id: input.id } });
    if (!before) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
    if (await keptInstead(tx, "part", input.id)) throw await mergedOrMissing(tx, "part", input.id);
    if (before.version !== input.version) throw await changedMeanwhile(tx, input.id, before.code);
    if (before.code !== input.code) await demandFreeCode(tx, input.code);
    if (
      before.unit !== input.unit &&
      (await tx.move.findFirst({ where: { partId: input.id }, select: { id: true }, orderBy: { id: "asc" } }))
    )
      throw new Refusal(
        `${before.code} has moved in ${before.unit} already.`,
        "Add a new part for the other unit.",
        {
          unit: `Stays ${before.unit}: its moves are written in it.`,
        },
      );
    if (input.moveAll && input.bin === "" && before.onHandMilli > 0)
      throw new Refusal(
        "It cannot all be moved to no bin.",
        "Say which bin it goes to, or leave it where it lies.",
        {
          bin: "Say which bin it goes to.",
        },
      );
    if (!input.active && (before.onHandMilli > 0 || before.reservedMilli > 0))
      throw new Refusal(
        `${before.code} is still on hand or reserved.`,
        "Use it up, send it back or scrap it first.",
        {
          active: "Only an empty part can be put away.",
        },
      );
    const after = { ...columns(input), ...(await replacedIn(tx, input)), active: input.active };
    const changed = (Object.keys(after) as (keyof typeof after)[]).filter(
      (name) => name !== "searchKey" && after[name] !== before[name],
    );
    await demandOne(
      tx.part.updateMany({
        where: { id: input.id, version: input.version },
        data: { ...after, version: { increment: 1 } },
      }),
      () => changedMeanwhile(tx, input.id, before.code),
    );
    const part = { id: before.id, code: input.code, unit: input.unit, bin: input.bin };
    if (input.moveAll) await gatherIn(tx, shop, part, input.bin);
    else if (before.bin === "" && input.bin !== "") await gatherIn(tx, shop, part, input.bin, "");
    if (changed.some((name) => name === "supplier" || name === "supplierCode" || name === "leadDays"))
      await supplyIn(tx, shop, input.id, input);
    await audit(tx, shop, "changed", "part", input.id, { changed });
  });
}

/** What the form says of the part that took this one's place; nothing where it does not ask. */
async function replacedIn(
  tx: ShopTx,
  input: Pick<Fields, "code" | "unit" | "replacedBy"> & { id: number | null },
) {
  if (input.replacedBy === undefined) return {};
  return { replacedById: await replacementIn(tx, input, input.replacedBy) };
}

/** The supplier named on the part's form is its usual one. */
async function supplyIn(
  tx: ShopTx,
  shop: ShopHandle,
  partId: number,
  input: { supplier: string; supplierCode: string; leadDays?: number | undefined },
): Promise<void> {
  if (input.supplier === "") {
    await tx.partSupplier.updateMany({ where: { partId, usual: true }, data: { usual: false } });
    return;
  }
  const supplierId = await supplierNamedIn(tx, shop, input.supplier);
  await usualIn(tx, partId, supplierId, input.supplierCode, input.leadDays ?? null);
}

/** Notes that more of a part is on its way: a line on today's order with its supplier. A receipt takes it off again. */
export async function putOnOrder(
  shop: ShopHandle,
  input: { partId: number; quantityMilli: number; why?: string | undefined; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) => once(tx, shop, "put a part on order", input, () => putOnOrderIn(tx, shop, input)));
}

async function demandFreeCode(tx: ShopTx, code: string): Promise<void> {
  const other = await tx.part.findUnique({ where: { code }, select: { name: true } });
  if (other)
    throw new Refusal(
      `The code ${code} is taken: it is ${other.name}.`,
      "Give this part another code, or change that part.",
      {
        code: `Taken by ${other.name}.`,
      },
    );
}

/** Says who changed the part, and what, as the audit trail tells it. */
async function changedMeanwhile(tx: ShopTx, id: number, code: string): Promise<Refusal> {
  const last = await tx.auditEntry.findFirst({
    where: { noun: "part", nounId: id, act: "changed" },
    select: { personName: true, detail: true },
    orderBy: { id: "desc" },
  });
  const names = (last?.detail as { changed?: string[] } | null)?.changed ?? [];
  return new Refusal(
    `${last?.personName ?? "Someone"} changed ${code} while you were editing it${names.length ? `: ${names.join(", ")}` : ""}.`,
    "Reload the part to see it as it is now, then make your change again.",
    {},
    "conflict",
  );
}
