import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { PAIR_NOUNS } from "@/lib/domain/photos/limits";
import type { PairSubject } from "@/lib/domain/procedures/observing";
import { Refusal } from "@/lib/domain/refusal";
import type { PairInput } from "@/lib/schemas/photoPairs";
import type { THROTTLES } from "@/lib/schemas/rides";
import { type ListedPhoto, photosOf } from "./list";

/** Begins a pair: its photos are taken one by one, before the change and after it. */
export async function beginPair(shop: ShopHandle, input: PairInput): Promise<number> {
  return shop.write((tx) => once(tx, shop, "began a pair of photos", input, () => beginIn(tx, shop, input)));
}

async function beginIn(tx: ShopTx, shop: ShopHandle, { key: _, ...input }: PairInput): Promise<number> {
  const bike = await tx.bike.findUnique({ where: { id: input.bikeId }, select: { id: true } });
  if (!bike) throw new Refusal("There is no such bike.", "Choose a bike from the list.", {}, "missing");
  if (input.jobId !== undefined) {
    const job = await tx.job.findUnique({
      where: { id: input.jobId },
      select: { bikeId: true, number: true },
    });
    if (!job) throw new Refusal("There is no such job.", "Choose a job of this bike.", {}, "missing");
    if (job.bikeId !== bike.id)
      throw new Refusal(`Job ${job.number} is on another bike.`, "Choose a job of this bike.");
  }
  const { id } = await tx.photoPair.create({
    data: { ...input, jobId: input.jobId ?? null, at: shop.now, staffId: shop.by.staffId },
    select: { id: true },
  });
  await audit(tx, shop, "began", "photo pair", id, { bikeId: bike.id });
  return id;
}

/** Removes a pair that was begun by mistake: it may hold no photo. */
export async function removePair(
  shop: ShopHandle,
  { pairId, version }: { pairId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const photos = await tx.photo.count({
      where: { noun: { in: [...PAIR_NOUNS] }, nounId: pairId, removedAt: null },
    });
    if (photos > 0)
      throw new Refusal(
        `This pair holds ${photos === 1 ? "a photo" : `${photos} photos`}.`,
        "Remove its photos first: each opens on a page of its own.",
      );
    await demandOne(
      tx.photoPair.deleteMany({ where: { id: pairId, version } }),
      () => new Refusal("This pair was removed meanwhile.", "Look at the list again.", {}, "conflict"),
    );
    await audit(tx, shop, "removed", "photo pair", pairId);
  });
}

const VIEW = {
  id: true,
  subject: true,
  throttle: true,
  note: true,
  at: true,
  version: true,
  job: { select: { id: true, number: true } },
  bike: {
    select: {
      id: true,
      plate: true,
      customer: { select: { name: true } },
      modelCard: { select: { make: true, model: true } },
    },
  },
} satisfies Prisma.PhotoPairSelect;

export interface PairView
  extends Omit<Prisma.PhotoPairGetPayload<{ select: typeof VIEW }>, "subject" | "throttle"> {
  readonly subject: PairSubject;
  readonly throttle: (typeof THROTTLES)[number];
  readonly before: readonly ListedPhoto[];
  readonly after: readonly ListedPhoto[];
}

export interface PairSearch {
  readonly bikeId?: number | undefined;
  readonly card?: number | undefined;
  readonly subject?: string | undefined;
  readonly throttle?: string | undefined;
  readonly after?: number | undefined;
}

const PAGE = 20;

/** Pairs of one bike, or of every bike on a model card, newest first. */
export async function listPairs(
  shop: ShopHandle,
  search: PairSearch,
): Promise<{ rows: PairView[]; next: number | null }> {
  const { bikeId, card, subject, throttle, after } = search;
  const rows = await shop.read.photoPair.findMany({
    where: {
      ...(bikeId === undefined ? {} : { bikeId }),
      ...(card === undefined ? {} : { bike: { modelCardId: card } }),
      ...(subject === undefined ? {} : { subject }),
      ...(throttle === undefined ? {} : { throttle }),
    },
    select: VIEW,
    orderBy: { id: "desc" },
    take: PAGE + 1,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  const ids = page.map((row) => row.id);
  const [before, later] = await Promise.all([
    photosOf(shop, "pairBefore", ids),
    photosOf(shop, "pairAfter", ids),
  ]);
  return {
    rows: page.map((row) => ({
      ...row,
      subject: row.subject as PairSubject,
      throttle: row.throttle as PairView["throttle"],
      before: before.get(row.id) ?? [],
      after: later.get(row.id) ?? [],
    })),
    next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null,
  };
}
