import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Operation } from "@/lib/domain/packages/recipe";
import { type CardRow, cardRows } from "./cardRows";
import { type Line, planAnew } from "./planAnew";
import { RIDE, type StepData, stepData } from "./stepRow";

/** Work that comes to a card: the accepted quote it is of (null: a correction of the job's own), and its operations. */
export interface AddedWork {
  readonly revisionId: number | null;
  readonly operations: readonly Operation[];
}

/**
 * Plans a card anew from where the bike stands: what is done stays as it is, what is open stays open for what still needs it, and
 * the operations left, old and new, come in the order of least minutes. A step taken in hand (a reading is there, a check
 * ticked) stays the next. Where there is a `ride` it ends the card: it is made where none waits. Answers the step of each added operation.
 */
export async function replanIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  added: AddedWork,
  ride: StepData | null = RIDE,
): Promise<Map<string, number>> {
  const rows = await cardRows(tx, jobId);
  const from = rows.works.findIndex((work) => work.revisionId === added.revisionId);
  const { lines, rides, surplus, together } = planAnew(rows, Math.max(from, 0), added.operations);
  const dropped = await drop(tx, shop, surplus);
  const ids = new Map<string, number>();
  const all: Line[] = [...dropped.map((row) => ({ row })), ...lines, ...rides.map((row) => ({ row }))];
  for (const [at, line] of inOrder(all).entries()) {
    const position = at + 1;
    if (line.row) {
      if (line.row.position !== position)
        await tx.step.update({ where: { id: line.row.id }, data: { position }, select: { id: true } });
      continue;
    }
    const data = { jobId, position, ...stepData(line.step, line.added?.inspects) };
    const { id } = await tx.step.create({ data, select: { id: true } });
    if (line.added) ids.set(line.added.key, id);
  }
  if (ride && rides.length === 0 && all.length > 0)
    await tx.step.create({ data: { jobId, position: all.length + 1, ...ride }, select: { id: true } });
  const names = added.operations.map((operation) => operation.name);
  await audit(tx, shop, "planned anew", "job", jobId, { added: names, together });
  return ids;
}

/** What is behind, by its place on the card; then the rest as planned. */
function inOrder(lines: readonly Line[]): Line[] {
  const behind = (line: Line) => line.row !== null && line.row.state !== "todo";
  const past = lines.filter(behind).toSorted((a, b) => (a.row?.position ?? 0) - (b.row?.position ?? 0));
  return [...past, ...lines.filter((line) => !behind(line))];
}

/** Takes openings and closings off that nothing needs; one that time or a finding hangs on stays, skipped with the reason. */
async function drop(tx: ShopTx, shop: ShopHandle, surplus: readonly CardRow[]): Promise<CardRow[]> {
  const held = surplus.filter(
    (row) => row.timeEntries.length > 0 || row.findings.length > 0 || row.notes.length > 0,
  );
  const free = surplus.filter((row) => !held.includes(row)).map((row) => row.id);
  if (free.length > 0) await tx.step.deleteMany({ where: { id: { in: free }, state: "todo" } });
  for (const { id } of held)
    await tx.step.update({
      where: { id },
      data: {
        state: "skipped",
        reason: "Left out when the work was planned anew: it is as it should be already.",
        doneAt: shop.now,
        doneBy: shop.by.staffId,
        version: { increment: 1 },
      },
      select: { id: true },
    });
  return held.map((row) => ({ ...row, state: "skipped" }));
}
