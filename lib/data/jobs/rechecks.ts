import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { folded } from "@/lib/domain/plan/oneBike";
import { createRechecksIn } from "../followUps/create";
import { cardRows, operationsOf } from "./cardRows";

/** Puts in the diary what the finished work says is looked at again: of the operations done and of what was closed again. */
export async function keepRechecksIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number },
  odometerKm: number | null,
): Promise<void> {
  const rows = await cardRows(tx, job.id);
  const done = rows.steps.filter((step) => step.state === "done");
  const operations = operationsOf(rows);
  const accesses = rows.works.flatMap((work) => work.accesses);
  const rechecks = done.flatMap((step) => {
    if (step.kind === "operation") return operations.get(step.id)?.operation.recheck ?? [];
    if (step.kind !== "close") return [];
    return (
      accesses.find((access) => access.recheck && folded(access.name) === folded(step.access))?.recheck ?? []
    );
  });
  if (rechecks.length === 0) return;
  const bike = await tx.bike.findUniqueOrThrow({ where: { id: job.bikeId }, select: { odometerKm: true } });
  await createRechecksIn(tx, shop, job, rechecks, odometerKm ?? bike.odometerKm);
}
