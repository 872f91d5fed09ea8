import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { MOST_REPLACEMENTS } from "@/lib/domain/stock/replaced";

type Reads = Pick<ShopReader, "part"> | Pick<ShopTx, "part">;

const LINK = { id: true, code: true, name: true, unit: true, replacedById: true, active: true } as const;

/**
 * The part that a typed code names as the one that takes another's place; null for no code. Refuses the part itself, one counted
 * otherwise, and one whose own chain leads back.
 */
export async function replacementIn(
  tx: Pick<ShopTx, "part">,
  part: { readonly id: number | null; readonly code: string; readonly unit: string },
  code: string,
): Promise<number | null> {
  if (code === "") return null;
  const wrong = (message: string, remedy: string) => new Refusal(message, remedy, { replacedBy: message });
  const first = await tx.part.findUnique({ where: { code }, select: LINK });
  if (!first) throw wrong(`There is no part ${code}.`, "Add it to stock first, or name another.");
  if (first.id === part.id) throw wrong("A part does not replace itself.", "Name the part that is made now.");
  if (first.unit !== part.unit)
    throw wrong(
      `${code} is counted in ${first.unit}, ${part.code} in ${part.unit}.`,
      "Name one that is counted alike.",
    );
  let next = first;
  for (let n = 0; next.replacedById !== null; n++) {
    if (next.replacedById === part.id || n >= MOST_REPLACEMENTS)
      throw wrong(
        `${code} is itself replaced, in the end by ${part.code}.`,
        "Take that away on the other part first, or name another.",
      );
    next = await tx.part.findUniqueOrThrow({ where: { id: next.replacedById }, select: LINK });
  }
  return first.id;
}

/** For parts that are made no more, the part that is made today in each one's place: the end of its chain. */
export async function newestOf(
  reads: Reads,
  parts: readonly { readonly id: number; readonly replacedById: number | null }[],
): Promise<Map<number, { readonly id: number; readonly code: string; readonly name: string }>> {
  const known = new Map<number, { id: number; code: string; name: string; replacedById: number | null }>();
  let asked = parts.flatMap(({ replacedById }) => replacedById ?? []);
  for (let n = 0; asked.length > 0 && n <= MOST_REPLACEMENTS; n++) {
    const rows = await reads.part.findMany({
      where: { id: { in: [...new Set(asked)] } },
      select: LINK,
      orderBy: { id: "asc" },
      take: 999,
    });
    for (const row of rows) known.set(row.id, row);
    asked = rows.flatMap(({ replacedById }) =>
      replacedById !== null && !known.has(replacedById) ? [replacedById] : [],
    );
  }
  const endOf = (id: number) => {
    let at = known.get(id);
    for (let n = 0; at && at.replacedById !== null && n <= MOST_REPLACEMENTS; n++)
      at = known.get(at.replacedById);
    return at;
  };
  return new Map(
    parts.flatMap(({ id, replacedById }) => {
      const end = replacedById === null ? undefined : endOf(replacedById);
      return end ? [[id, { id: end.id, code: end.code, name: end.name }] as const] : [];
    }),
  );
}
