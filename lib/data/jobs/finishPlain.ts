import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { FinishInput } from "@/lib/schemas/jobs";
import { keepOdometerIn } from "../bikes/odometer";
import { type jobIn, moveJobIn } from "./states";
import { endAllIn } from "./time/end";

/** A job asks for the settings as left where its card ends with a ride: where its work changes a setting. */
export async function hasRideIn(tx: Pick<ShopTx, "step">, jobId: number): Promise<boolean> {
  const ride = await tx.step.findFirst({
    where: { jobId, kind: "ride" },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return ride !== null;
}

/** The end of a job that changed no setting: the odometer, the note and the last look, without a sheet. */
export async function finishPlainIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: Awaited<ReturnType<typeof jobIn>>,
  input: FinishInput,
): Promise<void> {
  if (input.cautions !== "on")
    throw new Refusal("The last look is not done yet.", "Look the bike over, then tick it.", {
      cautions: "Tick this once you have looked the bike over.",
    });
  await keepOdometerIn(tx, shop, job.bikeId, input);
  await endAllIn(tx, shop, job.id, input);
  await moveJobIn(tx, job, ["inWork", "ride"], {
    state: "ready",
    finishedAt: shop.now,
    stopped: "",
    // No sheet keeps it: the job's own row does.
    ...(input.odometerKm === null ? {} : { odometerKm: input.odometerKm }),
    ...(input.note ? { notes: input.note } : {}),
  });
  await audit(tx, shop, "finished", "job", job.id);
}
