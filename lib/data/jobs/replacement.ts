import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { newestOf } from "../stock/replacements";
import { releaseOneIn, reserveIn } from "../stock/reservations";
import { shortOf } from "../stock/shortages";

/**
 * Reserves the part that is made today for what a job is short of, in place of one that is made no more: what the job holds or has used of
 * the old one stays. Answers the new part's code.
 */
export async function takeReplacement(
  shop: ShopHandle,
  input: { readonly jobId: number; readonly reservationId: number; readonly key?: string | undefined },
): Promise<string> {
  return shop.write((tx) =>
    once(tx, shop, "took a replacement", input, async () => {
      const held = await tx.reservation.findFirst({
        where: { id: input.reservationId, jobId: input.jobId, state: "held" },
        select: {
          id: true,
          stepId: true,
          wantedMilli: true,
          reservedMilli: true,
          usedMilli: true,
          version: true,
          part: { select: { id: true, code: true, replacedById: true } },
        },
        orderBy: { id: "asc" },
      });
      const newest = held && (await newestOf(tx, [held.part])).get(held.part.id);
      const short = held ? shortOf(held) : 0;
      if (!held || !newest || short <= 0)
        throw new Refusal(
          "Nothing of this part is missing any more.",
          "Look at the job again.",
          {},
          "conflict",
        );
      if (short === held.wantedMilli) await releaseOneIn(tx, shop, held.id, `${newest.code} in its place`);
      else
        await demandOne(
          tx.reservation.updateMany({
            where: { id: held.id, state: "held", version: held.version },
            data: { wantedMilli: held.wantedMilli - short, version: { increment: 1 } },
          }),
          () =>
            new Refusal("This reservation was changed meanwhile.", "Look at the job again.", {}, "conflict"),
        );
      await reserveIn(tx, shop, {
        jobId: input.jobId,
        partId: newest.id,
        wantedMilli: short,
        ...(held.stepId === null ? {} : { stepId: held.stepId }),
      });
      await audit(tx, shop, "took a replacement for", "part", held.part.id, {
        jobId: input.jobId,
        code: newest.code,
        quantityMilli: short,
      });
      return newest.code;
    }),
  );
}
