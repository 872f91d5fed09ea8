import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { partOfLine } from "@/lib/domain/invoices/partOfLine";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { jobOfKey } from "@/lib/domain/invoices/severalJobs";
import { Refusal } from "@/lib/domain/refusal";
import { quantityText } from "@/lib/schemas/quantity";
import type { FATES } from "@/lib/schemas/typedCredit";
import { recordMoveIn } from "../stock/moves";
import { editsOf } from "./edits";
import { jobIdsOn } from "./jobsOn";

type Db = Pick<ShopTx, "move" | "invoiceJob" | "invoiceEdit" | "job">;

/** A part that a line charges, and how much of it its job has used and not brought back. */
export interface ChargedPart {
  readonly jobId: number;
  readonly partId: number;
  readonly code: string;
  readonly unit: string;
  readonly usedMilli: number;
  /** What it cost as it went out; null where that is not known. */
  readonly unitCostE4: number | null;
}

/** The parts of stock that an invoice's lines charge, by the lines' keys. A line whose part the job never took is none of them. */
export async function chargedParts(
  db: Db,
  row: { readonly id: number; readonly jobId: number | null },
  doc: PrintedInvoice,
): Promise<Map<string, ChargedPart>> {
  const added = new Map((await editsOf(db, row.id)).map((edit) => [edit.key, edit.line?.partId]));
  const found = new Map<string, ChargedPart>();
  const jobIds = await jobIdsOn(db, row);
  for (const [at, jobId] of jobIds.entries()) {
    const used = await usedOn(db, jobId);
    for (const line of doc.lines) {
      const { job, key } = jobOfKey(line.key);
      if (line.kind !== "part" || (job === null ? at !== 0 : job !== doc.jobs[at]?.number)) continue;
      const code = partOfLine({ ...line, key }, [...used.values()]);
      const part = used.get(added.get(line.key) ?? 0) ?? [...used.values()].find((one) => one.code === code);
      if (part && part.usedMilli > 0) found.set(line.key, part);
    }
  }
  return found;
}

async function usedOn(db: Db, jobId: number): Promise<Map<number, ChargedPart>> {
  const moves = await db.move.findMany({
    where: { jobId, kind: { in: ["use", "returnToStock"] } },
    select: {
      partId: true,
      kind: true,
      quantityMilli: true,
      unitCostE4: true,
      part: { select: { code: true, unit: true } },
    },
    orderBy: { id: "asc" },
    take: 1000,
  });
  const used = new Map<number, ChargedPart>();
  for (const { partId, kind, quantityMilli, unitCostE4, part } of moves) {
    const before = used.get(partId);
    used.set(partId, {
      jobId,
      partId,
      ...part,
      usedMilli: (before?.usedMilli ?? 0) - quantityMilli,
      // At what it last went out for: an earlier use may have cost another price.
      unitCostE4: kind === "use" ? unitCostE4 : (before?.unitCostE4 ?? null),
    });
  }
  return used;
}

type Fate = (typeof FATES)[number];

/** Brings credited parts back to stock at what they cost, and what is not fit out again as scrap. Refused for more than was used. */
export async function partsBackIn(
  tx: ShopTx,
  shop: ShopHandle,
  parts: ReadonlyMap<string, ChargedPart>,
  back: readonly { readonly key: string; readonly quantityMilli: number; readonly fate: Fate }[],
  written: string,
): Promise<void> {
  for (const { key, quantityMilli, fate } of back) {
    if (fate === "stays") continue;
    const part = parts.get(key);
    if (!part)
      throw new Refusal(
        "This line took no part out of stock.",
        "Say that it stays with the customer.",
        {},
        "conflict",
      );
    if (quantityMilli > part.usedMilli)
      throw new Refusal(
        `Only ${quantityText(part.usedMilli, part.unit)} of ${part.code} was used on the job.`,
        "Bring that much back at most, or let it stay with the customer.",
      );
    const { jobId, partId, unitCostE4 } = part;
    const why = `credited with ${written}`;
    await recordMoveIn(tx, shop, {
      jobId,
      partId,
      kind: "returnToStock",
      quantityMilli,
      unitCostE4,
      passesThrough: fate === "scrapped",
      why,
    });
    if (fate === "scrapped")
      await recordMoveIn(tx, shop, { jobId, partId, kind: "scrap", quantityMilli, why: `${why}, not fit` });
  }
}
