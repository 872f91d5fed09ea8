import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { compared, type EffectKind, type Side } from "@/lib/domain/procedures/effects";
import { Refusal } from "@/lib/domain/refusal";
import { type EffectInput, UnderSchema } from "@/lib/schemas/effects";

/** Keeps a figure of before a job's work or of after it. */
export async function recordEffect(shop: ShopHandle, input: EffectInput): Promise<number> {
  return shop.write((tx) => once(tx, shop, "recorded an effect", input, () => recordIn(tx, shop, input)));
}

async function recordIn(tx: ShopTx, shop: ShopHandle, { key: _, ...input }: EffectInput): Promise<number> {
  const job = await tx.job.findUnique({
    where: { id: input.jobId },
    select: { bikeId: true, number: true },
  });
  if (!job) throw new Refusal("There is no such job.", "Choose a job of this bike.", {}, "missing");
  if (job.bikeId !== input.bikeId)
    throw new Refusal(`Job ${job.number} is on another bike.`, "Choose a job of this bike.");
  const { id } = await tx.effect.create({
    data: { ...input, at: shop.now, staffId: shop.by.staffId },
    select: { id: true },
  });
  await audit(tx, shop, "recorded", "effect", id, { bikeId: input.bikeId, jobId: input.jobId });
  return id;
}

/** Takes a figure that was wrong out of everything; it stays to be read, with the reason. */
export async function withdrawEffect(
  shop: ShopHandle,
  { effectId, version, why }: { effectId: number; version: number; why: string },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.effect.updateMany({
        where: { id: effectId, version, withdrawnAt: null },
        data: { withdrawnAt: shop.now, withdrawnWhy: why, version: { increment: 1 } },
      }),
      () => new Refusal("This figure was withdrawn meanwhile.", "Look at the page again.", {}, "conflict"),
    );
    await audit(tx, shop, "withdrew", "effect", effectId, { why });
  });
}

export const EFFECT = {
  id: true,
  bikeId: true,
  jobId: true,
  side: true,
  kind: true,
  value: true,
  under: true,
  instrument: true,
  note: true,
  at: true,
  withdrawnAt: true,
  withdrawnWhy: true,
  version: true,
} satisfies Prisma.EffectSelect;

type Row = Prisma.EffectGetPayload<{ select: typeof EFFECT }>;

export const readEffect = (row: Row) => ({
  ...row,
  side: row.side as Side,
  kind: row.kind as EffectKind,
  under: UnderSchema.parse(row.under),
});
export type EffectView = ReturnType<typeof readEffect>;

/** Most figures of one bike that are read. */
const MOST = 400;

/** What was read on a bike before and after its jobs, the newest job first: the figures, and what they come to side by side. */
export async function effectsOn(shop: ShopHandle, bikeId: number) {
  const rows = await shop.read.effect.findMany({
    where: { bikeId },
    select: { ...EFFECT, job: { select: { number: true, title: true } } },
    orderBy: { id: "desc" },
    take: MOST,
  });
  const jobs = Map.groupBy(rows, (row) => row.jobId);
  return [...jobs].map(([jobId, own]) => {
    const figures = own.map(({ job: _, ...row }) => readEffect(row)).reverse();
    return {
      jobId,
      number: own[0]?.job.number ?? "",
      title: own[0]?.job.title ?? "",
      figures,
      compared: compared(figures.filter((one) => one.withdrawnAt === null)),
    };
  });
}
