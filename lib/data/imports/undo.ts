import { inBackground } from "@/lib/db/giveWay";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import { mergeSearchIn } from "@/lib/db/searchMerge";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { ImportNoun } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { FOUND_BY, MANY } from "./foundBy";
import type { Changes, Entry } from "./types";
import { checkUndoIn, type Standing } from "./undoCheck";
import { takeBackIn } from "./undoStore";

export interface Undone {
  readonly removed: number;
  readonly restored: number;
  /** Parts with opening stock: their ledger stays, so they are put away with nothing on hand. */
  readonly putAway: number;
}

const TOLD = 5;

/**
 * Takes a whole import back, all of it or nothing: what it added goes, what it changed is as it was. Refused where anything
 * of it was edited since, or where something hangs on it; the refusal names the first of them.
 */
export function undoImport(shop: ShopHandle, runId: number): Promise<Undone> {
  return inBackground(() => undo(shop, runId));
}

async function undo(shop: ShopHandle, runId: number): Promise<Undone> {
  return shop.write(async (tx) => {
    const run = await tx.importRun.findUnique({
      where: { id: runId },
      select: { noun: true, fileName: true, added: true, changed: true, undoneAt: true },
    });
    if (!run) throw new Refusal("There is no such import.", "Choose one from the list.", {}, "missing");
    const entries = await entriesOf(tx, runId);
    if (entries.length === 0 && run.undoneAt === null)
      throw new Refusal(
        run.added + run.changed === 0
          ? `${run.fileName} changed nothing, so there is nothing to take back.`
          : `${run.fileName} came in before imports could be taken back.`,
        "Remove single records on their own pages.",
      );
    await demandOne(
      tx.importRun.updateMany({
        where: { id: runId, undoneAt: null },
        data: { undoneAt: shop.now, undoneBy: shop.by.name },
      }),
      () => new Refusal(`${run.fileName} was taken back already.`, "", {}, "conflict"),
    );
    const standing: Standing = await checkUndoIn(tx, entries);
    if (standing.problems.length > 0) throw hangs(run.fileName, standing.problems);
    const undone = await takeBackIn(tx, shop, standing);
    const noun = run.noun as ImportNoun;
    if (entries.length > MANY) await mergeSearchIn(tx, FOUND_BY[noun]);
    await audit(tx, shop, "took an import back", noun, runId, { fileName: run.fileName, ...undone });
    return undone;
  });
}

function hangs(fileName: string, problems: readonly string[]): Refusal {
  const more = problems.length - TOLD;
  return new Refusal(
    `${fileName} cannot be taken back: ${problems.slice(0, TOLD).join("; ")}${more > 0 ? `; and ${more} more` : ""}. Nothing was changed.`,
    "Remove what hangs on them first, or remove single records on their own pages.",
  );
}

const PAGE = 500;

async function entriesOf(tx: ShopTx, runId: number): Promise<Entry[]> {
  const all: Entry[] = [];
  for (let after = 0; ; ) {
    const page = await tx.importEntry.findMany({
      where: { runId, id: { gt: after } },
      select: { id: true, noun: true, nounId: true, act: true, version: true, was: true, openedMilli: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    all.push(...page.map((row) => ({ ...row, was: (row.was ?? {}) as Changes }) as Entry));
    const last = page.at(-1);
    if (!last || page.length < PAGE) return all;
    after = last.id;
  }
}
