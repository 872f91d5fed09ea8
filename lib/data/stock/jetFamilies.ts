import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { JetFamilyInput } from "@/lib/schemas/jetFamilies";

/** What is kept of the drawers of jets, by their name: a drawer that nobody described has no row. */
export async function jetFamilyFacts(shop: ShopHandle) {
  const rows = await shop.read.jetFamily.findMany({
    select: { name: true, thread: true, convention: true, version: true },
    orderBy: { name: "asc" },
    take: 500,
  });
  return new Map(rows.map((row) => [row.name, row]));
}

/** Keeps a drawer's thread and what its numbers mean; where that is said, it holds for every jet in it. */
export async function saveJetFamily(shop: ShopHandle, input: JetFamilyInput): Promise<void> {
  const { name, version, thread, convention } = input;
  await shop.write(async (tx) => {
    const jet = { kind: "jet" as const, family: name };
    if (!(await tx.part.findFirst({ where: jet, select: { id: true }, orderBy: { id: "asc" } })))
      throw new Refusal("No jet lies in this drawer.", "Open the drawer again.", {}, "missing");
    const there = await tx.jetFamily.findUnique({ where: { name }, select: { id: true } });
    if (there)
      await demandOne(
        tx.jetFamily.updateMany({
          where: { name, version },
          data: { thread, convention, version: { increment: 1 } },
        }),
        changed,
      );
    else if (version !== 0) throw changed();
    else await tx.jetFamily.create({ data: { name, thread, convention }, select: { id: true } });
    if (convention !== "")
      await tx.part.updateMany({
        where: { ...jet, convention: { not: convention } },
        data: { convention, version: { increment: 1 } },
      });
    await audit(tx, shop, "described", "drawer", null, { name, thread, convention });
  });
}

const changed = () =>
  new Refusal("Somebody else described this drawer in the meantime.", "Load the page again.", {}, "conflict");
