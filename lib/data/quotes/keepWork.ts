import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { recipeOf } from "@/lib/domain/packages/work";
import { Refusal } from "@/lib/domain/refusal";
import type { KeepWorkInput } from "@/lib/schemas/works";
import { createIn as createPackageIn } from "../packages/file";
import { storedWork } from "../packages/works";
import { demandQuote } from "./rows";

/** A package whose draft is a work that was written on a quote; answers the package. The quote keeps the work as it is. */
export async function keepAsPackage(
  shop: ShopHandle,
  input: Omit<KeepWorkInput, "version"> & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "kept a work as a package", input, async () => {
      const { revision } = await demandQuote(tx, input.id);
      const row = revision.works.find((one) => one.key === input.work && one.kind === "written");
      if (!row)
        throw new Refusal("This work is not on the quote any more.", "Open the quote again.", {}, "conflict");
      const work = storedWork(row);
      const summary = work.kind === "written" ? work.plain.slice(0, 400) : "";
      const { code } = input;
      return createPackageIn(tx, shop, { code, name: work.name, summary, recipe: recipeOf(work) }, "kept");
    }),
  );
}
