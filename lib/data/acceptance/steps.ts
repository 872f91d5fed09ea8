import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { needs } from "@/lib/domain/packages/needs";
import type { Operation, Recipe } from "@/lib/domain/packages/recipe";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { FrozenQuote } from "../documents/quote";
import { replanIn } from "../jobs/replan";
import { RIDE, stepData } from "../jobs/stepRow";
import { moveOnIn } from "../jobs/steps";
import { composedOf, WORKS } from "../packages/works";

/** The steps of a new job: the frozen plan with its hold points, then the ride where a setting changes. Answers the step of each operation by its key. */
export async function addSteps(
  tx: ShopTx,
  jobId: number,
  revisionId: number,
  frozen: FrozenQuote,
): Promise<Map<string, number>> {
  const ids = new Map<string, number>();
  const recipe = await recipeOf(tx, revisionId);
  const { operations } = recipe;
  for (const [at, step] of frozen.steps.entries()) {
    const operation = operations.find((one) => step.kind === "operation" && one.key === step.key);
    const data = { jobId, position: at + 1, ...stepData(step, operation?.inspects) };
    const { id } = await tx.step.create({ data, select: { id: true } });
    if (step.kind === "operation") ids.set(step.key, id);
  }
  if (changesSetting(recipe, frozen)) {
    const position = frozen.steps.length + 1;
    await tx.step.create({ data: { jobId, position, ...RIDE }, select: { id: true } });
  }
  return ids;
}

/** The operations of an accepted variation come to the job's card, and the card is planned anew from where the bike stands. */
export async function extendSteps(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  revisionId: number,
  frozen: FrozenQuote,
): Promise<Map<string, number>> {
  const recipe = await recipeOf(tx, revisionId);
  const operations = frozen.steps.flatMap((step): Operation[] => {
    const found = recipe.operations.find((o) => step.kind === "operation" && o.key === step.key);
    return found ? [{ ...found, makes: step.makes ?? [] }] : [];
  });
  const ride = changesSetting(recipe, frozen) ? RIDE : null;
  const ids = await replanIn(tx, shop, jobId, { revisionId, operations }, ride);
  await moveOnIn(tx, jobId);
  return ids;
}

/** Whether the work changes or measures how the bike is set: only then it is ridden, and left with a sheet of its settings. */
function changesSetting(recipe: Recipe, { options }: FrozenQuote): boolean {
  const keys = options.map((option) => option.key);
  const { changes, needle, leaves, operations } = needs(
    recipe,
    keys.filter((key) => recipe.options.some((option) => option.key === key)),
  );
  const measures = operations.some((operation) =>
    operation.holdPoints.some((point) => settingDef(point.measures ?? "") !== undefined),
  );
  return changes.length > 0 || needle !== undefined || leaves !== undefined || measures;
}

async function recipeOf(tx: ShopTx, revisionId: number): Promise<Recipe> {
  const { works } = await tx.quoteRevision.findUniqueOrThrow({
    where: { id: revisionId },
    select: { works: WORKS },
  });
  return composedOf(works).recipe;
}
