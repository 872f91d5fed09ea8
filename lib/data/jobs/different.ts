import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import {
  type Different,
  differentKey,
  keptDifferent,
  type StepWas,
  whatWasDifferent,
} from "@/lib/domain/packages/different";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { folded } from "@/lib/domain/plan/oneBike";
import { Refusal } from "@/lib/domain/refusal";
import { beginDraftIn, demandPackageDraft, storeDraft } from "../packages/draft";
import { storedRecipe } from "../packages/stored";

type Reads = Pick<ShopTx, "job" | "step" | "move" | "quoteWork">;

/** What was different on a finished job from one of the packages it was made of. */
export interface DifferentFrom {
  readonly packageId: number;
  readonly name: string;
  /** The revision that the job was planned by. */
  readonly number: number;
  readonly differences: readonly (Different & { readonly id: string })[];
}

const FINISHED = ["ready", "invoiced", "closed"];

/** What was different on a job, package by package; empty while it is not finished, and where all went as planned. */
export async function differentOn(tx: Reads, jobId: number): Promise<DifferentFrom[]> {
  const job = await tx.job.findUnique({ where: { id: jobId }, select: { state: true, revisionId: true } });
  if (!job || !FINISHED.includes(job.state)) return [];
  const works = await tx.quoteWork.findMany({
    where: {
      kind: "package",
      revision: {
        OR: [{ id: job.revisionId }, { quote: { variationOfId: jobId }, acceptance: { isNot: null } }],
      },
    },
    select: {
      key: true,
      packageRevision: {
        select: { number: true, recipe: true, package: { select: { id: true, name: true } } },
      },
    },
    orderBy: { id: "asc" },
    take: 40,
  });
  if (works.length === 0) return [];
  const steps = await stepsOf(tx, jobId);
  const said = new Set<number>();
  return works.flatMap(({ key, packageRevision }) => {
    if (!packageRevision) return [];
    const recipe = storedRecipe(packageRevision.recipe);
    const own = steps.flatMap((step): StepWas[] => {
      const at = keyIn(recipe, key, step);
      // A step of two packages teaches the first of them.
      if (at === undefined || said.has(step.id)) return [];
      said.add(step.id);
      return [{ ...step.was, key: at }];
    });
    const differences = whatWasDifferent(recipe, own).map((one) => ({ ...one, id: differentKey(one) }));
    const { id: packageId, name } = packageRevision.package;
    return differences.length === 0 ? [] : [{ packageId, name, number: packageRevision.number, differences }];
  });
}

interface CardStep {
  readonly key: string;
  readonly name: string;
  readonly access: string;
  readonly kind: string;
}

/** The key in a package's own recipe of what a step of the card is; undefined where it is none of it. */
export function keyIn(recipe: Recipe, work: string, step: CardStep): string | undefined {
  if (step.kind !== "operation")
    return recipe.accesses.find((one) => folded(one.name) === folded(step.access))?.key;
  const within =
    work === "" ? step.key : step.key.startsWith(`${work}:`) ? step.key.slice(work.length + 1) : "";
  return recipe.operations.find((one) => one.key === within && one.name === step.name)?.key;
}

const MINUTE = 60_000;

async function stepsOf(tx: Reads, jobId: number) {
  const rows = await tx.step.findMany({
    where: { jobId, state: "done", kind: { in: ["open", "operation", "close"] } },
    select: {
      id: true,
      kind: true,
      key: true,
      name: true,
      access: true,
      timeEntries: { select: { startedAt: true, endedAt: true }, take: 200 },
      reservations: {
        select: { part: { select: { code: true } }, wantedMilli: true, unusedWhy: true },
        take: 100,
      },
      holdPoints: {
        select: {
          name: true,
          overrideReason: true,
          readings: { select: { value: true }, orderBy: { id: "desc" }, take: 1 },
        },
        orderBy: { position: "asc" },
        take: 40,
      },
    },
    orderBy: { position: "asc" },
    take: 300,
  });
  const moves = await tx.move.findMany({
    where: { jobId, stepId: { not: null }, kind: { in: ["use", "returnToStock"] } },
    select: { stepId: true, quantityMilli: true, part: { select: { code: true } } },
    orderBy: { id: "asc" },
    take: 1000,
  });
  return rows.map(({ id, kind, key, name, access, timeEntries, reservations, holdPoints }) => {
    const spent = timeEntries.reduce(
      (sum, { startedAt, endedAt }) => sum + (endedAt ? endedAt.getTime() - startedAt.getTime() : 0),
      0,
    );
    const used = moves.filter(({ stepId }) => stepId === id);
    const codes = new Set([...reservations, ...used].map(({ part }) => part.code));
    const was: StepWas = {
      kind: kind as StepWas["kind"],
      key,
      spentMinutes: Math.round(spent / MINUTE),
      parts: [...codes].map((code) => {
        const reserved = reservations.filter(({ part }) => part.code === code);
        const taken = used.filter(({ part }) => part.code === code);
        return {
          code,
          usedMilli: -taken.reduce((sum, { quantityMilli }) => sum + quantityMilli, 0),
          wantedMilli: reserved.reduce((sum, { wantedMilli }) => sum + wantedMilli, 0),
          why: reserved.find(({ unusedWhy }) => unusedWhy)?.unusedWhy ?? "",
        };
      }),
      letPass: holdPoints.flatMap(({ name: of, overrideReason, readings }) => {
        const value = readings[0]?.value;
        return overrideReason && value != null ? [{ name: of, value, why: overrideReason }] : [];
      }),
    };
    return { id, kind, key, name, access, was };
  });
}

/**
 * Keeps some of what was different as a proposed revision: it goes into the package's draft, which is begun where none stands,
 * with the evidence beside it. Nothing that is published changes. Refuses what the job does not show. Answers the draft's number.
 */
export async function keepDifferent(
  shop: ShopHandle,
  input: { jobId: number; packageId: number; kept: readonly string[]; key?: string | undefined },
): Promise<number> {
  const { jobId, packageId, kept } = input;
  return shop.write((tx) =>
    once(tx, shop, "kept what was different", input, async () => {
      const from = (await differentOn(tx, jobId)).find((one) => one.packageId === packageId);
      const chosen = from?.differences.filter(({ id }) => kept.includes(id)) ?? [];
      if (chosen.length === 0 || chosen.length !== new Set(kept).size)
        throw new Refusal(
          "The job does not show this any more.",
          "Look at what was different as it stands now.",
          {},
          "conflict",
        );
      await beginDraftIn(tx, shop, packageId);
      const draft = await demandPackageDraft(tx, packageId);
      const recipe = storedRecipe(keptDifferent(draft.recipe, chosen));
      await storeDraft(tx, shop, packageId, draft, recipe, {
        act: "kept what was different in",
        part: "job",
        key: String(jobId),
      });
      for (const { item, evidence } of chosen)
        await tx.packageEvidence.create({
          data: { revisionId: draft.id, jobId, item, evidence, personName: shop.by.name, at: shop.now },
          select: { id: true },
        });
      return draft.number;
    }),
  );
}
