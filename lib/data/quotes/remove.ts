import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { answerFindingIn } from "./write";

/** Removes a draft that was begun by mistake and never sent; the finding it answers is open again. Its number is not given anew. */
export async function removeDraftQuote(
  shop: ShopHandle,
  { id, version }: { id: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const quote = await tx.quote.findUnique({
      where: { id },
      select: { number: true, state: true, findingId: true, revisions: { select: { frozenAt: true } } },
    });
    if (!quote) throw new Refusal("There is no such quote.", "Choose one from the list.", {}, "missing");
    if (quote.state !== "draft" || quote.revisions.some((one) => one.frozenAt !== null))
      throw new Refusal(
        `Quote ${quote.number} was sent once, and what was sent stays.`,
        "Note the customer's no, or replace it by another quote.",
      );
    await tx.quoteAlternative.deleteMany({ where: { quoteId: id } });
    await tx.quoteRevision.deleteMany({ where: { quoteId: id, frozenAt: null } });
    await demandOne(
      tx.quote.deleteMany({ where: { id, state: "draft", version } }),
      () => new Refusal(`Quote ${quote.number} was changed meanwhile.`, "Open it again.", {}, "conflict"),
    );
    await answerFindingIn(tx, quote.findingId, "open");
    await audit(tx, shop, "removed", "quote", id, { number: quote.number });
  });
}
