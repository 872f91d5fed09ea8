import type { ShopTx } from "@/lib/db/shop";
import type { Operation, Recipe } from "@/lib/domain/packages/recipe";
import type { PackageWork } from "@/lib/domain/plan/oneBike";
import { storedQuote } from "../documents/quote";
import { composedIfRead, WORKS } from "../packages/works";
import { correctionAgain } from "./reopen";

/** What a job's card is made of, as re-planning needs it. */
export interface CardRows {
  readonly steps: readonly CardRow[];
  /** The works of the accepted quote and of each accepted variation, in the order of their yes. */
  readonly works: readonly AgreedWork[];
}

export interface AgreedWork extends PackageWork {
  readonly revisionId: number;
  /** Null where it cannot be read. */
  readonly recipe: Recipe | null;
  /** Keys of the operations that this quote put on the card. */
  readonly planned: readonly string[];
}

type Reads = Pick<ShopTx, "step" | "quoteRevision">;

export type CardRow = Awaited<ReturnType<typeof stepsOf>>[number];

const stepsOf = (tx: Reads, jobId: number) =>
  tx.step.findMany({
    where: { jobId },
    select: {
      id: true,
      position: true,
      kind: true,
      key: true,
      name: true,
      access: true,
      state: true,
      holdPoints: {
        select: { kind: true, name: true, passed: true, readings: { select: { id: true }, take: 1 } },
        orderBy: { position: "asc" },
      },
      timeEntries: { select: { id: true }, take: 1 },
      findings: { select: { id: true }, take: 1 },
      notes: { select: { id: true }, take: 1 },
    },
    orderBy: [{ position: "asc" }, { id: "asc" }],
    take: 500,
  });

/** The steps of a job and the packages behind them; a reader or a transaction asks the same. */
export async function cardRows(tx: Reads, jobId: number): Promise<CardRows> {
  const [steps, agreed] = await Promise.all([
    stepsOf(tx, jobId),
    tx.quoteRevision.findMany({
      where: {
        OR: [{ job: { id: jobId } }, { quote: { variationOfId: jobId }, acceptance: { isNot: null } }],
      },
      select: {
        id: true,
        frozen: true,
        works: WORKS,
        acceptance: { select: { id: true } },
        job: { select: { id: true } },
      },
      orderBy: { id: "asc" },
      take: 100,
    }),
  ]);
  const place = (row: (typeof agreed)[number]) => (row.job ? 0 : (row.acceptance?.id ?? 0));
  const works = agreed
    .toSorted((a, b) => place(a) - place(b))
    .map(({ id, frozen, works: listed }): AgreedWork => {
      const recipe = composedIfRead(listed)?.recipe ?? null;
      const { operations, accesses } = recipe ?? { operations: [], accesses: [] };
      const planned = frozen === null ? null : storedQuote(frozen).steps;
      const keys = planned?.filter((step) => step.kind === "operation").map((step) => step.key);
      return {
        revisionId: id,
        recipe,
        operations,
        accesses,
        planned: keys ?? operations.map((o) => o.key),
      };
    });
  return { steps, works };
}

/**
 * The operation behind each step that is one, and the package it is from: of several quotes with an operation of this key the
 * first put the first such step on the card. A step that no package explains is missing from the answer.
 */
export function operationsOf({
  steps,
  works,
}: CardRows): Map<number, { from: number; operation: Operation }> {
  const found = new Map<number, { from: number; operation: Operation }>();
  const used = new Map<string, number>();
  for (const step of steps.toSorted((a, b) => a.id - b.id)) {
    if (step.kind !== "operation") continue;
    const correction = correctionAgain(works[0]?.recipe ?? null, step);
    if (correction) {
      found.set(step.id, { from: 0, operation: correction });
      continue;
    }
    const having = works.flatMap((work, from) => (work.planned.includes(step.key) ? [from] : []));
    const from = having[used.get(step.key) ?? 0];
    const operation =
      from === undefined ? undefined : works[from]?.operations.find((o) => o.key === step.key);
    if (from === undefined || !operation) continue;
    used.set(step.key, (used.get(step.key) ?? 0) + 1);
    found.set(step.id, { from, operation });
  }
  return found;
}
