import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { makesPart } from "@/lib/domain/packages/partOption";
import { type DescribedPart, figuresOf } from "@/lib/domain/tuning/describedParts";
import { type ModelledParts, modelledParts } from "@/lib/domain/tuning/modelledParts";
import { CHANGED_KINDS, type ChangedKind, followedBy } from "@/lib/domain/tuning/partChange";
import type { SettingValues } from "@/lib/domain/tuning/targetTypes";
import { describedParts, type KeptPart, keepPartIn } from "../bikes/describedParts";
import { makersOf } from "./makers";

/** A described part of one carburettor on a job. */
export interface JobPart {
  readonly carburettor: number;
  readonly kind: ChangedKind;
  readonly found: KeptPart | null;
  readonly target: KeptPart | null;
  readonly left: KeptPart | null;
  /** What is fitted once the card is done: the target where its step is not skipped, else as found. */
  readonly fitted: KeptPart | null;
}

export type JobPartReads = Pick<ShopReader, "fittedPart" | "step"> | Pick<ShopTx, "fittedPart" | "step">;

/** Springs, holes, openings, filters and silencers of a job's bike, for each carburettor on which one was ever described. */
export async function partsOfJob(
  reads: JobPartReads,
  job: { readonly id: number; readonly bikeId: number },
): Promise<readonly JobPart[]> {
  const all = await describedParts(reads, job.bikeId);
  if (all.length === 0) return [];
  const steps = await makersOf(reads, job.id);
  const end = all.find((part) => part.jobId === job.id && part.state === "left")?.id;
  return [...new Set(all.map((one) => one.carburettor))].sort().flatMap((carburettor) =>
    CHANGED_KINDS.flatMap((kind): JobPart[] => {
      const here = all.filter((one) => one.carburettor === carburettor && one.part.kind === kind);
      const own = (state: KeptPart["state"]) =>
        here.find((one) => one.jobId === job.id && one.state === state) ?? null;
      const found =
        here.find(
          (one) =>
            one.state !== "target" &&
            (one.jobId !== job.id || one.state === "found") &&
            (end === undefined || one.id < end),
        ) ?? null;
      const [target, left] = [own("target"), own("left")];
      const makers = steps.filter((step) => makesPart(step.makes as string[], kind));
      // Work whose steps name nothing that they make counts as done, as its settings do.
      const made = makers.length === 0 || makers.some((step) => step.state !== "skipped");
      const fitted = left ?? (made ? target : null) ?? found;
      return found || target || left ? [{ carburettor, kind, found, target, left, fitted }] : [];
    }),
  );
}

/** What the fuel model takes of the first carburettor's described parts, as evidence keeps it: as the job's bike came, or as its card leaves it. */
export async function modelledOnJob(
  reads: JobPartReads,
  job: { readonly id: number; readonly bikeId: number },
  when: "found" | "fitted",
): Promise<ModelledParts> {
  const own = (await partsOfJob(reads, job)).filter((one) => one.carburettor === 1);
  return modelledParts(own.flatMap((one) => one[when]?.part ?? []));
}

interface LeftValue {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
}

/** Writes what a job leaves of its described parts, with its as-left sheet: as its values say, where these are other than was meant. */
export async function keepPartsLeftIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { readonly id: number; readonly bikeId: number },
  sheetId: number,
  values: readonly LeftValue[],
): Promise<void> {
  for (const { carburettor, target, fitted } of await partsOfJob(tx, job)) {
    if (!fitted) continue;
    const own = values.filter((value) => value.carburettor === carburettor);
    const left: SettingValues = Object.fromEntries(own.map(({ setting, value }) => [setting, value]));
    const followed = followedBy(fitted.part, settingsOf(fitted.part), left);
    if (!followed && !target) continue;
    await keepPartIn(tx, shop, {
      bikeId: job.bikeId,
      carburettor,
      state: "left",
      part: followed ?? fitted.part,
      how: followed ? "computed" : fitted.how,
      jobId: job.id,
      sheetId,
    });
  }
}

const settingsOf = (part: DescribedPart): SettingValues =>
  Object.fromEntries(figuresOf(part).map(({ setting, value }) => [setting, value]));
