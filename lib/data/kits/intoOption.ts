import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { withKit } from "@/lib/domain/packages/optionKits";
import { Refusal } from "@/lib/domain/refusal";
import { demandPackageDraft, storeDraft } from "../packages/draft";
import { storedRecipe } from "../packages/stored";
import { demandKitIn } from "./read";

/**
 * Opens a kit into the parts of an option of a package's draft, each taken by the option's last operation. What the option has
 * already of a part is added to; a kit's set price stays with its parts. Answers the option's name.
 */
export async function openKitInto(
  shop: ShopHandle,
  input: { packageId: number; kitId: number; option: string; key?: string | undefined },
): Promise<{ option: string; kit: string }> {
  return shop.write((tx) =>
    once(tx, shop, "opened a kit into an option", input, async () => {
      const draft = await demandPackageDraft(tx, input.packageId);
      const option = draft.recipe.options.find(({ key }) => key === input.option);
      if (!option)
        throw new Refusal("This option is not in the draft any more.", "Choose another.", {}, "conflict");
      const kit = await demandKitIn(tx, input.kitId);
      const operation = option.operations.length > 1 ? option.operations.at(-1) : undefined;
      const opened = { ...option, ...withKit(option, kit, operation) };
      const options = draft.recipe.options.map((one) => (one === option ? opened : one));
      await storeDraft(tx, shop, input.packageId, draft, storedRecipe({ ...draft.recipe, options }), {
        act: "opened a kit into",
        part: "options",
        key: option.key,
      });
      return { option: option.name, kit: kit.name };
    }),
  );
}
