import type { ShopHandle } from "@/lib/db/shop";
import type { BikePart, Damage, Side } from "@/lib/domain/arrival/damage";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import { arrivalWords } from "@/lib/words/arrival";

const LISTED = {
  id: true,
  noun: true,
  nounId: true,
  width: true,
  height: true,
  caption: true,
  at: true,
} as const;

export interface ListedPhoto {
  readonly id: number;
  readonly noun: string;
  readonly nounId: number;
  readonly width: number;
  readonly height: number;
  readonly caption: string;
  readonly at: Date;
}

/** Photos of some parts, bikes, steps, findings or sides of pairs, oldest first, by what they show: `photos.get(nounId)`. */
export async function photosOf(
  shop: ShopHandle,
  noun: PhotoNoun,
  ids: readonly number[],
): Promise<Map<number, ListedPhoto[]>> {
  if (ids.length === 0) return new Map();
  const rows = await shop.read.photo.findMany({
    where: { noun, nounId: { in: [...ids] }, removedAt: null },
    select: LISTED,
    orderBy: { id: "asc" },
    take: 500,
  });
  return Map.groupBy(rows, (row) => row.nounId);
}

/** Photos of a job's steps and findings, each by its step or finding. */
export async function photosOfJob(
  shop: ShopHandle,
  job: { readonly steps: readonly { id: number }[]; readonly findings: readonly { id: number }[] },
): Promise<Record<"steps" | "findings", Map<number, ListedPhoto[]>>> {
  const ids = (rows: readonly { id: number }[]) => ({ in: rows.map((row) => row.id) });
  if (job.steps.length + job.findings.length === 0) return { steps: new Map(), findings: new Map() };
  const rows = await shop.read.photo.findMany({
    where: {
      removedAt: null,
      OR: [
        { noun: "step", nounId: ids(job.steps) },
        { noun: "finding", nounId: ids(job.findings) },
      ],
    },
    select: LISTED,
    orderBy: { id: "asc" },
    take: 500,
  });
  const by = (noun: string) =>
    Map.groupBy(
      rows.filter((row) => row.noun === noun),
      (row) => row.nounId,
    );
  return { steps: by("step"), findings: by("finding") };
}

/** What a photo shows, and where that is found. */
export interface PhotoSubject {
  readonly noun: PhotoNoun;
  readonly id: number;
  readonly name: string;
  /** Of steps and findings. */
  readonly job: { readonly id: number; readonly number: string } | null;
  /** Of a step: its place on the card. */
  readonly position: number | null;
  /** Of a pair: the bike that it is of. */
  readonly bikeId: number | null;
  /** Of a mark: the arrival that it is of. */
  readonly arrivalId: number | null;
}

/** One photo with what it shows; null where there is none. One that was taken off is there until it is swept away. */
export async function getPhoto(shop: ShopHandle, id: number) {
  const row = await shop.read.photo.findUnique({
    where: { id },
    select: { ...LISTED, staffId: true, removedAt: true, version: true },
  });
  if (!row) return null;
  const [subject, staff] = await Promise.all([
    subjectOf(shop, row.noun as PhotoNoun, row.nounId),
    row.staffId === null
      ? null
      : shop.read.staff.findUnique({ where: { id: row.staffId }, select: { name: true } }),
  ]);
  return { ...row, by: staff?.name ?? "", subject };
}

const OF_JOB = { job: { select: { id: true, number: true } } } as const;

async function subjectOf(shop: ShopHandle, noun: PhotoNoun, id: number): Promise<PhotoSubject> {
  const plain = { noun, id, job: null, position: null, bikeId: null, arrivalId: null };
  if (noun === "part") {
    const part = await shop.read.part.findUnique({ where: { id }, select: { code: true, name: true } });
    return { ...plain, name: part ? `${part.code} ${part.name}` : "a part" };
  }
  if (noun === "bike") {
    const bike = await shop.read.bike.findUnique({
      where: { id },
      select: { plate: true, modelCard: { select: { make: true, model: true } } },
    });
    const name = bike
      ? [bike.modelCard.make, bike.modelCard.model, bike.plate].filter(Boolean).join(" ")
      : "a bike";
    return { ...plain, name };
  }
  if (noun === "step") {
    const step = await shop.read.step.findUnique({
      where: { id },
      select: { name: true, position: true, ...OF_JOB },
    });
    return {
      ...plain,
      name: step?.name ?? "a step",
      job: step?.job ?? null,
      position: step?.position ?? null,
    };
  }
  if (noun === "pairBefore" || noun === "pairAfter") {
    const pair = await shop.read.photoPair.findUnique({
      where: { id },
      select: { bikeId: true, subject: true, bike: { select: { modelCard: { select: { model: true } } } } },
    });
    const side = noun === "pairBefore" ? "before" : "after";
    const name = pair ? `${pair.bike.modelCard.model}, ${pair.subject}, ${side}` : "a pair";
    return { ...plain, name, bikeId: pair?.bikeId ?? null };
  }
  if (noun === "damage") {
    const mark = await shop.read.arrivalDamage.findUnique({
      where: { id },
      select: { arrivalId: true, part: true, side: true, what: true, arrival: { select: OF_JOB } },
    });
    const words = arrivalWords("en");
    const name = mark
      ? `${words.part[mark.part as BikePart]}, ${words.side[mark.side as Side]}: ${words.what[mark.what as Damage]}`
      : "a mark";
    return { ...plain, name, job: mark?.arrival.job ?? null, arrivalId: mark?.arrivalId ?? null };
  }
  const finding = await shop.read.finding.findUnique({ where: { id }, select: { text: true, ...OF_JOB } });
  return { ...plain, name: finding?.text ?? "a finding", job: finding?.job ?? null };
}

/** What the file store knows a photo by; null where there is none or it was taken off. */
export async function kept(shop: ShopHandle, id: number): Promise<{ file: string; hash: string } | null> {
  const row = await shop.read.photo.findUnique({
    where: { id },
    select: { file: true, hash: true, removedAt: true },
  });
  return row && row.removedAt === null ? { file: row.file, hash: row.hash } : null;
}
