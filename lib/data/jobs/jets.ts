import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { JetToSettle, SettledJet } from "@/lib/domain/sheets/jets";
import { settingDef } from "@/lib/domain/tuning/settings";
import { LIES } from "../stock/lying";
import { recordMoveIn } from "../stock/moves";
import type { StepOfCard } from "./steps";

/** What was said of a jet of a step: one of the shop's by its id, or another of this size and why. */
export interface JetSaid {
  /** Its place among the step's entries, from 0. */
  readonly at: number;
  readonly partId: number | null;
  readonly size: number | null;
  readonly why: string;
}

const JET = {
  id: true,
  code: true,
  name: true,
  unit: true,
  family: true,
  sizeMilli: true,
  bin: true,
  bins: LIES,
  onHandMilli: true,
  reservedMilli: true,
} satisfies Prisma.PartSelect;

/** What a step has to settle, as it was kept; a quote's number was a number before it could have a prefix. */
export const storedJets = (json: unknown): JetToSettle[] =>
  (json as JetToSettle[]).map((jet) => ({ ...jet, quote: jet.quote === null ? null : String(jet.quote) }));

/** “Main jet”, or “Main jet, carburettor 2”. */
export function jetName({ setting, carburettor }: JetToSettle): string {
  const name = settingDef(setting)?.name ?? setting;
  return carburettor === null ? name : `${name}, carburettor ${carburettor}`;
}

/** Adds what a step has to settle. */
export async function leaveOpenIn(tx: ShopTx, stepId: number, jets: readonly JetToSettle[]): Promise<void> {
  const step = await tx.step.findUniqueOrThrow({ where: { id: stepId }, select: { unsettled: true } });
  await tx.step.update({
    where: { id: stepId },
    data: { unsettled: [...storedJets(step.unsettled), ...jets] as unknown as Prisma.InputJsonArray },
    select: { id: true },
  });
}

/** The jets that could be what these entries ask for, by family, the smallest first. An entry of no family asks among all jets. */
export async function jetsFor(
  reads: Pick<ShopReader, "part"> | Pick<ShopTx, "part">,
  jets: readonly JetToSettle[],
) {
  const open = jets.filter((jet) => !jet.settled);
  if (open.length === 0) return [];
  const families = [...new Set(open.map((jet) => jet.family))];
  return reads.part.findMany({
    where: {
      kind: "jet",
      active: true,
      sizeMilli: { not: null },
      ...(families.includes("") ? {} : { family: { in: families } }),
    },
    select: JET,
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }, { id: "asc" }],
    take: 300,
  });
}

type Jet = Awaited<ReturnType<typeof jetsFor>>[number];

/**
 * Settles the jets of a step as it is passed: what came from the shop's stock leaves it, and the size fitted is kept as a reading
 * of the setting. Refuses with all that nothing, or not enough, was said of.
 */
export async function settleJetsIn(
  tx: ShopTx,
  shop: ShopHandle,
  step: StepOfCard,
  said: readonly JetSaid[],
): Promise<void> {
  const jets = storedJets(step.unsettled);
  if (jets.every((jet) => jet.settled)) return;
  const drawer = await jetsFor(tx, jets);
  const answers = jets.map((jet, at) =>
    jet.settled
      ? null
      : answerOf(
          jet,
          at,
          said.find((one) => one.at === at),
          drawer,
        ),
  );
  const fields = Object.assign(
    {},
    ...answers.map((answer) => (answer && "fields" in answer ? answer.fields : {})),
  );
  const [first] = Object.values<string>(fields);
  if (first)
    throw new Refusal(first, "Nothing was saved: say which jet was fitted, then pass the step.", fields);
  const settled: JetToSettle[] = [];
  for (const [at, jet] of jets.entries()) {
    const answer = answers[at];
    if (!answer || "fields" in answer) settled.push(jet);
    else settled.push({ ...jet, settled: await fitIn(tx, shop, step, jet, answer) });
  }
  await tx.step.update({
    where: { id: step.id },
    data: { unsettled: settled as unknown as Prisma.InputJsonArray },
    select: { id: true },
  });
}

type Answer = SettledJet | { readonly fields: Record<string, string> };

function answerOf(jet: JetToSettle, at: number, said: JetSaid | undefined, drawer: readonly Jet[]): Answer {
  const wrong = (field: string, text: string): Answer => ({ fields: { [`${field}.${at}`]: text } });
  const name = jetName(jet);
  if (!said) return wrong("jets", `Say which ${name.toLowerCase()} was fitted.`);
  if (said.partId !== null) {
    const part = drawer.find(
      (one) => one.id === said.partId && (jet.family === "" || one.family === jet.family),
    );
    if (!part?.sizeMilli)
      return wrong("jets", `That is no jet of this drawer: choose the ${name.toLowerCase()} again.`);
    const free = part.onHandMilli - part.reservedMilli;
    if (free < jet.quantityMilli)
      return wrong(
        "jets",
        `${part.code} is not free: ${free / 1000} of it is left over. Choose another, or receive it first.`,
      );
    return { partId: part.id, size: part.sizeMilli / 1000, why: "" };
  }
  const def = settingDef(jet.setting);
  if (said.size === null) return wrong("jetSizes", `Enter the size of the ${name.toLowerCase()}.`);
  if (def && (said.size < def.low || said.size > def.high))
    return wrong("jetSizes", `${def.name} is from ${def.low} to ${def.high}: read it again.`);
  if (said.why.length < 3)
    return wrong("jetWhys", "Say why it is not from the shop's stock, in a few words.");
  return { partId: null, size: said.size, why: said.why };
}

async function fitIn(
  tx: ShopTx,
  shop: ShopHandle,
  step: StepOfCard,
  jet: JetToSettle,
  fitted: SettledJet,
): Promise<SettledJet> {
  if (fitted.partId !== null)
    await recordMoveIn(tx, shop, {
      partId: fitted.partId,
      kind: "use",
      quantityMilli: jet.quantityMilli,
      jobId: step.jobId,
      stepId: step.id,
    });
  await tx.holdPoint.create({
    data: {
      stepId: step.id,
      position: await tx.holdPoint.count({ where: { stepId: step.id } }),
      kind: "reading",
      name: `${jetName(jet)} fitted`,
      measures: jet.setting,
      carburettor: jet.carburettor,
      passed: true,
      readings: {
        create: { value: fitted.size, inside: true, at: shop.now, staffId: shop.by.staffId },
      },
    },
    select: { id: true },
  });
  return fitted;
}
