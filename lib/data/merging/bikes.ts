import { demandOne } from "@/lib/db/guard";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { bikeKey } from "../bikes/bikeKeys";
import { auditChange } from "../common/changes";
import { mergedOrMissing } from "../common/merged";
import { counted, joinFields, type Plains } from "./fields";
import { auditMerge, changedSince, demandMergeable, noteMergeIn } from "./record";
import type { MergePreview, Pair, Side } from "./types";

type Reads = Pick<
  ShopTx,
  | "bike"
  | "settingSheet"
  | "fittedPart"
  | "calibration"
  | "intake"
  | "arrival"
  | "vacuumBalance"
  | "photoPair"
  | "effect"
  | "followUp"
  | "runAnswer"
  | "quote"
  | "job"
  | "booking"
  | "photo"
>;

const WITH = {
  customer: { select: { name: true } },
  modelCard: { select: { make: true, model: true } },
  severity: { select: { name: true } },
  carburettors: { orderBy: { position: "asc" } },
} as const;

const NAMES: Readonly<Record<string, string>> = {
  year: "Year",
  plate: "Plate",
  frameNumber: "Frame number",
  colour: "Colour",
  complaint: "Complaint",
  notes: "Notes",
};

/** What merging one bike into another would move and fill. Null where one of them is not there. */
export async function previewBikes(reads: Reads, keptId: number, goneId: number) {
  const [kept, gone] = await Promise.all([
    reads.bike.findUnique({ where: { id: keptId }, include: WITH }),
    reads.bike.findUnique({ where: { id: goneId }, include: WITH }),
  ]);
  if (!kept || !gone || keptId === goneId) return null;
  const where = { bikeId: goneId };
  const side = (row: typeof kept): Side => ({
    id: row.id,
    version: row.version,
    name: [row.modelCard.make, row.modelCard.model, row.plate].filter(Boolean).join(" "),
    about: [row.customer.name, row.year, row.frameNumber].filter(Boolean).join(", "),
  });
  const joined = joinFields(kept as unknown as Plains, gone as unknown as Plains, NAMES);
  const use = kept.severityId === null ? gone.severity : null;
  const odometerKm = Math.max(kept.odometerKm ?? 0, gone.odometerKm ?? 0);
  const further = odometerKm > (kept.odometerKm ?? 0);
  const preview: MergePreview = {
    kept: side(kept),
    gone: side(gone),
    moves: counted({
      "setting sheet": await reads.settingSheet.count({ where }),
      "described part": await reads.fittedPart.count({ where }),
      lesson: await reads.calibration.count({ where }),
      intake: await reads.intake.count({ where }),
      arrival: await reads.arrival.count({ where }),
      "vacuum balance": await reads.vacuumBalance.count({ where }),
      "photo pair": await reads.photoPair.count({ where }),
      "before-and-after figure": await reads.effect.count({ where }),
      "follow-up": await reads.followUp.count({ where }),
      "answer to how it runs": await reads.runAnswer.count({ where }),
      quote: await reads.quote.count({ where }),
      job: await reads.job.count({ where }),
      booking: await reads.booking.count({ where }),
      photo: await reads.photo.count({ where: { noun: "bike", nounId: goneId, removedAt: null } }),
    }),
    filled: [
      ...joined.filled,
      ...(further ? [{ name: "Odometer, km", value: String(odometerKm) }] : []),
      ...(use ? [{ name: "Used in", value: use.name }] : []),
    ],
    left: [
      ...joined.left,
      ...(gone.customerId === kept.customerId ? [] : [{ name: "Owner", value: gone.customer.name }]),
    ],
    against: againstBikes(kept, gone),
  };
  const to = {
    ...joined.to,
    ...(further ? { odometerKm } : {}),
    ...(use ? { severityId: gone.severityId } : {}),
  };
  return { preview, kept, gone, to };
}

interface OnCard {
  readonly modelCardId: number;
  readonly modelCard: { readonly make: string; readonly model: string };
  readonly carburettors: readonly unknown[];
}

/** Sheets and lessons belong to a model and a number of carburettors. */
function againstBikes(kept: OnCard, gone: OnCard): string {
  if (kept.modelCardId !== gone.modelCardId)
    return `one is on the card of a ${kept.modelCard.make} ${kept.modelCard.model}, the other on that of a ${gone.modelCard.make} ${gone.modelCard.model}.`;
  return kept.carburettors.length === gone.carburettors.length
    ? ""
    : `one has ${kept.carburettors.length} carburettors, the other ${gone.carburettors.length}.`;
}

/**
 * Makes two bikes one: sheets, described parts, lessons, intakes, arrivals, balances, quotes, jobs, bookings and photos go over, blanks are
 * filled, the odometer is the further one, and links to the other lead to the kept one.
 */
export async function mergeBikes(shop: ShopHandle, pair: Pair): Promise<number> {
  const { keptId, goneId } = pair;
  return shop.write(async (tx) => {
    const found = await previewBikes(tx, keptId, goneId);
    if (!found) throw await missing(tx, pair);
    const { preview, kept, gone, to } = found;
    demandMergeable(preview, pair);
    await noteMergeIn(tx, shop, "bike", preview, gone.importKey);
    const over = { where: { bikeId: goneId }, data: { bikeId: keptId } };
    await tx.settingSheet.updateMany(over);
    await tx.fittedPart.updateMany(over);
    await tx.calibration.updateMany(over);
    await tx.intake.updateMany(over);
    await tx.arrival.updateMany(over);
    await tx.vacuumBalance.updateMany(over);
    await tx.photoPair.updateMany(over);
    await tx.effect.updateMany(over);
    await tx.followUp.updateMany(over);
    await tx.runAnswer.updateMany(over);
    await tx.quote.updateMany(over);
    await tx.job.updateMany(over);
    await tx.booking.updateMany(over);
    await tx.photo.updateMany({ where: { noun: "bike", nounId: goneId }, data: { nounId: keptId } });
    for (const { position, marking } of gone.carburettors)
      if (marking)
        await tx.carburettor.updateMany({
          where: { bikeId: keptId, position, marking: "" },
          data: { marking },
        });
    await demandOne(tx.bike.deleteMany({ where: { id: goneId, version: pair.goneVersion } }), () =>
      changedSince(preview.gone.name),
    );
    await demandOne(
      tx.bike.updateMany({
        where: { id: keptId, version: pair.keptVersion },
        data: {
          ...to,
          searchKey: bikeKey({ ...kept, ...to }, kept.modelCard, kept.customer),
          version: { increment: 1 },
        },
      }),
      () => changedSince(preview.kept.name),
    );
    const from = Object.fromEntries(
      Object.keys(to).map((key) => [key, (kept as unknown as Plains)[key] ?? null]),
    );
    await auditChange(tx, shop, "bike", keptId, pair.keptVersion + 1, from, to);
    await auditMerge(tx, shop, "bike", preview);
    return keptId;
  });
}

async function missing(tx: ShopTx, { keptId, goneId }: Pair): Promise<Refusal> {
  if (keptId === goneId) return new Refusal("Both are the same bike.", "Choose the double of this one.");
  const kept = await tx.bike.findUnique({ where: { id: keptId }, select: { id: true } });
  return mergedOrMissing(tx, "bike", kept ? goneId : keptId);
}
