import type { ShopTx } from "@/lib/db/shop";
import { jetsToSettle } from "@/lib/domain/sheets/jets";
import type { FrozenQuote } from "../documents/quote";
import { leaveOpenIn } from "../jobs/jets";

/**
 * Jets that the quote left open are asked for by the step that takes them; where the package names none, by the step that makes
 * the setting, else by the last operation.
 */
export async function leaveJetsOpenIn(
  tx: ShopTx,
  job: { readonly id: number; readonly bikeId: number },
  frozen: FrozenQuote,
  stepIds: ReadonlyMap<string, number>,
): Promise<void> {
  const open = frozen.parts.filter((part) => part.unsettled !== undefined);
  if (open.length === 0) return;
  const carburettors = await tx.carburettor.count({ where: { bikeId: job.bikeId } });
  for (const { unsettled, operation, quantityMilli } of open) {
    if (!unsettled) continue;
    const named = operation === null ? undefined : stepIds.get(operation);
    const stepId = named ?? (await stepFor(tx, job.id, unsettled.setting));
    if (stepId === undefined) continue;
    const { setting, family } = unsettled;
    const jet = {
      setting,
      family,
      quantityMilli,
      quote: frozen.number,
      carburettors: unsettled.carburettors,
    };
    await leaveOpenIn(tx, stepId, jetsToSettle(jet, Math.max(carburettors, unsettled.carburettors.length)));
  }
}

async function stepFor(tx: ShopTx, jobId: number, setting: string): Promise<number | undefined> {
  const steps = await tx.step.findMany({
    where: { jobId, kind: "operation", state: "todo" },
    select: { id: true, makes: true },
    orderBy: { position: "asc" },
    take: 300,
  });
  return (steps.find((step) => (step.makes as string[]).includes(setting)) ?? steps.at(-1))?.id;
}
