import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { changedCount } from "./binCounts";
import { findScanned } from "./find";

/**
 * Puts a part on a count that is going on, found in the bin though the ledger has none of it there. `code` is what its
 * label or bag says. Nothing of the ledger is told. Returns the part's code.
 */
export async function addToCount(
  shop: ShopHandle,
  input: { sheetId: number; code: string; key?: string | undefined },
): Promise<string> {
  const found = await findScanned(shop, input.code);
  const [part] = found;
  if (!part || found.length > 1)
    throw new Refusal(
      part
        ? `${input.code} could be ${found.map((each) => each.code).join(", ")}.`
        : `No part is known as ${input.code}.`,
      part
        ? "Enter the part's own code."
        : "Scan it once more, or add it to stock as a new part; then it can be counted.",
      { code: part ? "More than one part." : "No such part." },
    );
  return shop.write((tx) =>
    once(tx, shop, "added to a count", input, async () => {
      // The version stays: what is being typed into the count meanwhile is not out of date for a longer list.
      await demandOne(
        tx.countSheet.updateMany({
          where: { id: input.sheetId, state: "open" },
          data: { state: "open" },
        }),
        () => changedCount(),
      );
      const line = { sheetId: input.sheetId, partId: part.id };
      const there = await tx.countLine.findUnique({
        where: { sheetId_partId: line },
        select: { id: true },
      });
      if (there)
        throw new Refusal(`${part.code} is on this count already.`, "Enter how much of it lies there.", {
          code: "On the list already.",
        });
      await tx.countLine.create({ data: line, select: { id: true } });
      await audit(tx, shop, "found", "count", input.sheetId, { code: part.code });
      return part.code;
    }),
  );
}
