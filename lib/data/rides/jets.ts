import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { jetsToSettle } from "@/lib/domain/sheets/jets";
import { leaveOpenIn, storedJets } from "../jobs/jets";
import { composedIfRead, WORKS } from "../packages/works";
import { reserveIn } from "../stock/reservations";

/** The size that a correction aims at on one carburettor. */
export interface AimedAt {
  readonly carburettor: number;
  readonly value: number;
}

interface JetChange {
  readonly jobId: number;
  readonly setting: string;
  /** The size that was fitted. */
  readonly from: number;
}

interface Change extends JetChange {
  readonly stepId: number;
}

type Tables = "quoteRevision" | "step" | "part" | "job";
type JetReads = Pick<ShopReader, Tables> | Pick<ShopTx, Tables>;

/** Sizes that are free in the drawer which a job takes a jet from; undefined where nothing tells the drawer. */
export async function freeJets(
  reads: JetReads,
  jobId: number,
  setting: string,
  from: number | undefined,
): Promise<readonly number[] | undefined> {
  if (from === undefined) return undefined;
  const family = await familyOf(reads, { jobId, setting, from });
  if (family === "") return undefined;
  const rows = await reads.part.findMany({
    where: { kind: "jet", family, active: true, sizeMilli: { not: null } },
    select: { sizeMilli: true, onHandMilli: true, reservedMilli: true },
    orderBy: { sizeMilli: "asc" },
    take: 200,
  });
  return rows
    .filter((row) => row.onHandMilli - row.reservedMilli >= 1000)
    .map((row) => (row.sizeMilli ?? 0) / 1000);
}

/**
 * The jets of a correction are reserved for its step like any other part, where the drawer keeps their size; what it does not keep
 * is asked for when the step is passed. Nothing for a setting that is no jet.
 */
export async function askForJetsIn(
  tx: ShopTx,
  shop: ShopHandle,
  change: Change,
  target: readonly AimedAt[],
): Promise<void> {
  const { jobId, stepId, setting } = change;
  if (setting !== "mainJet" && setting !== "pilotJet") return;
  const family = await familyOf(tx, change);
  for (const [size, aimed] of Map.groupBy(target, ({ value }) => value)) {
    const wantedMilli = aimed.length * 1000;
    const jet = await tx.part.findFirst({
      where: { kind: "jet", family, sizeMilli: Math.round(size * 1000), active: true },
      select: { id: true },
      orderBy: { id: "asc" },
    });
    if (jet && family !== "") {
      await reserveIn(tx, shop, { jobId, stepId, partId: jet.id, wantedMilli });
      continue;
    }
    const carburettors = aimed.map(({ carburettor }) => carburettor);
    const open = { setting, family, quantityMilli: wantedMilli, quote: null, carburettors };
    await leaveOpenIn(tx, stepId, jetsToSettle(open, target.length));
  }
}

/**
 * The drawer that the job takes jets of this setting from: as its packages say, else as the bike's model card does, else as a step of
 * it was asked, else the family of the jet of the old size that it used or was reserved. Empty where nothing tells.
 */
async function familyOf(tx: JetReads, { jobId, setting, from }: JetChange): Promise<string> {
  const revisions = await tx.quoteRevision.findMany({
    where: { OR: [{ job: { id: jobId } }, { quote: { variationOfId: jobId }, acceptance: { isNot: null } }] },
    select: { works: WORKS },
    orderBy: { id: "desc" },
    take: 100,
  });
  for (const { works } of revisions) {
    const composed = composedIfRead(works);
    const family = composed ? familyIn(composed.recipe, setting) : undefined;
    if (family) return family;
  }
  const job = await tx.job.findUnique({
    where: { id: jobId },
    select: { bike: { select: { modelCard: { select: { mainFamily: true, pilotFamily: true } } } } },
  });
  const ofModel = drawerOf(setting, job?.bike.modelCard);
  if (ofModel) return ofModel;
  const steps = await tx.step.findMany({
    where: { jobId },
    select: { unsettled: true },
    orderBy: { position: "asc" },
    take: 500,
  });
  const asked = steps
    .flatMap((step) => storedJets(step.unsettled))
    .find((jet) => jet.setting === setting && jet.family !== "");
  if (asked) return asked.family;
  const old = { kind: "jet" as const, family: { not: "" }, sizeMilli: Math.round(from * 1000) };
  const part = await tx.part.findFirst({
    where: { ...old, OR: [{ moves: { some: { jobId } } }, { reservations: { some: { jobId } } }] },
    select: { family: true },
    orderBy: { id: "desc" },
  });
  return part?.family ?? "";
}

function drawerOf(
  setting: string,
  card: { readonly mainFamily: string; readonly pilotFamily: string } | undefined,
): string {
  if (setting === "mainJet") return card?.mainFamily ?? "";
  return setting === "pilotJet" ? (card?.pilotFamily ?? "") : "";
}

function familyIn({ options, operations }: Recipe, setting: string): string | undefined {
  const needs = [...options, ...operations].flatMap((one) => one.parts);
  const jet = needs.find((need) => need.kind === "jet" && need.setting === setting);
  return jet?.kind === "jet" ? jet.family : undefined;
}
