import type { ShopHandle } from "@/lib/db/shop";
import { type Usual, usually } from "@/lib/domain/labour/usual";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { fetched } from "../common/chunks";
import { keyIn } from "../jobs/different";
import { storedRecipe } from "../packages/stored";

/** Newest works of a package that are looked through: what it took longer ago is other work (judgement). */
const MOST = 100;
const FINISHED = { state: { in: ["ready" as const, "invoiced" as const, "closed" as const] } };
const MINUTE = 60_000;

export type StepKind = "open" | "operation" | "close";

export interface UsualMinutes {
  readonly kind: StepKind;
  readonly key: string;
  readonly name: string;
  readonly grade: string;
  readonly planned: number;
  /** Null where no time was ever taken on it. */
  readonly usual: Usual | null;
}

/**
 * What each operation and access of a recipe usually takes here: the time of each finished job's done step on which any was taken.
 * What was renamed or added since has a history only under the key it has now.
 */
export async function usualMinutes(
  shop: ShopHandle,
  packageId: number,
  recipe: Recipe,
): Promise<UsualMinutes[]> {
  const took = await tookOn(shop, packageId);
  const row = (kind: StepKind, key: string, name: string, planned: number, grade = ""): UsualMinutes => ({
    kind,
    key,
    name,
    grade,
    planned,
    usual: usually(took.get(`${kind} ${key}`) ?? []),
  });
  return [
    ...recipe.operations.map((one) => row("operation", one.key, one.name, one.minutes, one.grade)),
    ...recipe.accesses.flatMap((one) => [
      row("open", one.key, `Opening: ${one.name}`, one.openMinutes),
      row("close", one.key, `Closing: ${one.name}`, one.closeMinutes),
    ]),
  ];
}

/** Minutes that each job took, by kind and key of the package's own recipe. */
async function tookOn(shop: ShopHandle, packageId: number): Promise<Map<string, number[]>> {
  const works = await shop.read.quoteWork.findMany({
    where: {
      packageRevision: { packageId },
      revision: {
        OR: [{ job: FINISHED }, { acceptance: { isNot: null }, quote: { variationOf: FINISHED } }],
      },
    },
    select: {
      key: true,
      packageRevisionId: true,
      revision: { select: { job: { select: { id: true } }, quote: { select: { variationOfId: true } } } },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
  const revisions = await fetched(
    [...new Set(works.flatMap((work) => work.packageRevisionId ?? []))],
    (ids) =>
      shop.read.packageRevision.findMany({
        where: { id: { in: ids } },
        select: { id: true, recipe: true },
        orderBy: { id: "asc" },
      }),
  );
  const recipes = new Map(revisions.map((one) => [one.id, storedRecipe(one.recipe)]));
  const jobIdOf = (work: (typeof works)[number]) =>
    work.revision.job?.id ?? work.revision.quote.variationOfId ?? 0;
  const steps = await fetched([...new Set(works.map(jobIdOf))], (ids) =>
    shop.read.step.findMany({
      where: { jobId: { in: ids }, state: "done", kind: { not: "ride" }, timeEntries: { some: {} } },
      select: {
        jobId: true,
        kind: true,
        key: true,
        name: true,
        access: true,
        timeEntries: { select: { startedAt: true, endedAt: true }, orderBy: { id: "asc" }, take: 200 },
      },
      orderBy: { id: "asc" },
      take: 5000,
    }),
  );
  const ofJob = Map.groupBy(steps, (step) => step.jobId);
  const took = new Map<string, number[]>();
  for (const work of works) {
    const recipe = recipes.get(work.packageRevisionId ?? 0);
    if (!recipe) continue;
    const own = new Map<string, number>();
    for (const step of ofJob.get(jobIdOf(work)) ?? []) {
      const key = keyIn(recipe, work.key, step);
      if (key === undefined) continue;
      const at = `${step.kind} ${key}`;
      own.set(at, (own.get(at) ?? 0) + minutesOf(step.timeEntries));
    }
    for (const [at, minutes] of own) took.set(at, [...(took.get(at) ?? []), minutes]);
  }
  return took;
}

const minutesOf = (entries: readonly { startedAt: Date; endedAt: Date | null }[]): number =>
  entries.reduce(
    (ms, { startedAt, endedAt }) => ms + (endedAt ? endedAt.getTime() - startedAt.getTime() : 0),
    0,
  ) / MINUTE;
