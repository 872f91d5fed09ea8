import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { recipeAt, STARTERS } from "@/lib/domain/packages/starters/starters";
import { Refusal } from "@/lib/domain/refusal";
import { createIn } from "./file";

/** How many packages of one code are tried before the shop is asked to tidy up. */
const MOST_OF_ONE = 20;

/** Takes a starter package over as a draft at the shop's first labour grade; answers the new package's id. */
export async function takeStarter(
  shop: ShopHandle,
  input: { starter: string; key?: string | undefined },
): Promise<number> {
  const starter = STARTERS.find((one) => one.key === input.starter);
  if (!starter)
    throw new Refusal("There is no such starter package.", "Choose one from the list.", {}, "missing");
  return shop.write((tx) =>
    once(tx, shop, "took a starter package over", input, async () => {
      const grade = await tx.labourGrade.findFirst({ select: { code: true }, orderBy: { id: "asc" } });
      if (!grade)
        throw new Refusal("The shop has no labour grade.", "Add one under Shop, Labour and markup, first.");
      const { name, summary } = starter;
      const code = await freeCodeIn(tx, starter.code);
      return createIn(tx, shop, { code, name, summary, recipe: recipeAt(starter, grade.code) }, "took over");
    }),
  );
}

async function freeCodeIn(tx: ShopTx, code: string): Promise<string> {
  const rows = await tx.package.findMany({
    where: { code: { startsWith: code } },
    select: { code: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  const taken = new Set(rows.map((row) => row.code));
  for (let n = 1; n <= MOST_OF_ONE; n++) {
    const free = n === 1 ? code : `${code}-${n}`;
    if (!taken.has(free)) return free;
  }
  throw new Refusal(
    `There are ${MOST_OF_ONE} packages called ${code} already.`,
    "Give one of them another code.",
  );
}
