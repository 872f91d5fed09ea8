import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { FinishFollowUp } from "@/lib/schemas/followUps";

/** Marks a follow-up done with its outcome, or dropped with why. */
export async function finishFollowUp(
  shop: ShopHandle,
  input: FinishFollowUp & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "finished a follow-up", input, async () => {
      await demandOne(
        tx.followUp.updateMany({
          where: { id: input.id, state: "due", version: input.version },
          data: { state: input.state, outcome: input.outcome, doneAt: shop.now, version: { increment: 1 } },
        }),
        () => changed(tx, input.id),
      );
      await audit(tx, shop, input.state, "followUp", input.id, { outcome: input.outcome });
      return input.id;
    }),
  );
}

async function changed(tx: ShopTx, id: number): Promise<Refusal> {
  const now = await tx.followUp.findUnique({ where: { id }, select: { state: true } });
  if (!now) return new Refusal("There is no such follow-up.", "Choose one from the list.", {}, "missing");
  return new Refusal(
    now.state === "due"
      ? "This follow-up was changed by someone else."
      : `This follow-up is already ${now.state}.`,
    "Look at it as it stands now.",
    {},
    "conflict",
  );
}
