import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { operationsPicked, withOption, withPicked } from "@/lib/domain/library/pick";
import { Refusal } from "@/lib/domain/refusal";
import { libraryIn } from "../library/read";
import { demandPackageDraft, storeDraft } from "./draft";
import { storedRecipe } from "./stored";

/**
 * Puts accesses and operations of the library into a package's draft, with what they need open; as one option where it is
 * given a name. Answers how many items came.
 */
export async function pickEntries(
  shop: ShopHandle,
  input: {
    packageId: number;
    entries: readonly string[];
    option: string;
    grade: string;
    key?: string | undefined;
  },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "picked from the library", input, async () => {
      const draft = await demandPackageDraft(tx, input.packageId);
      const library = await libraryIn(tx);
      const gone = input.entries.filter((key) => !library.has(key));
      if (gone.length > 0)
        throw new Refusal(
          "Something ticked has left the library meanwhile.",
          "Look at the list as it is now, and tick again.",
          {},
          "conflict",
        );
      const grade =
        (await tx.labourGrade.findUnique({ where: { code: input.grade }, select: { code: true } })) ??
        (await tx.labourGrade.findFirst({ select: { code: true }, orderBy: { id: "asc" } }));
      if (!grade)
        throw new Refusal("The shop has no labour grade.", "Add one under Shop, Labour and markup, first.");
      const picked = withPicked(draft.recipe, library, input.entries, grade.code);
      const operations = operationsPicked(picked, input.entries);
      if (input.option && operations.length === 0)
        throw new Refusal(
          "An option is made of work, and no work is ticked.",
          "Tick an operation, or leave the option’s name empty.",
          {
            option: "Tick the work that it does, or leave this empty.",
          },
        );
      const whole = input.option ? withOption(picked, input.option, operations) : picked;
      await storeDraft(tx, shop, input.packageId, draft, storedRecipe(whole), {
        act: "picked from the library",
        part: "library",
        key: input.entries.slice(0, 20).join(" "),
      });
      const size = (recipe: typeof whole) => recipe.accesses.length + recipe.operations.length;
      return size(whole) - size(draft.recipe);
    }),
  );
}
