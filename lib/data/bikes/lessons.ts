import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { JudgeLessonInput } from "@/lib/schemas/lessons";

export type LessonState = "teaches" | "held" | "released" | "taken out";

export interface LessonRow {
  readonly id: number;
  readonly at: Date;
  readonly bikeId: number;
  readonly bike: string;
  readonly source: string;
  readonly samples: number;
  readonly note: string;
  readonly heldBecause: string;
  readonly state: LessonState;
  /** Why a person decided so; "" where nobody did. */
  readonly why: string;
}

const MOST = 100;
const SELECT = {
  id: true,
  at: true,
  bikeId: true,
  modelCardId: true,
  source: true,
  samples: true,
  note: true,
  heldBecause: true,
  bike: { select: { plate: true, customer: { select: { name: true } } } },
  verdicts: { select: { act: true, why: true }, orderBy: { id: "desc" }, take: 1 },
} as const;

/** What taught a model card, newest first: each lesson with where it stands. */
export async function listLessons(shop: ShopHandle, modelCardId: number): Promise<readonly LessonRow[]> {
  const rows = await shop.read.calibration.findMany({
    where: { modelCardId },
    select: SELECT,
    orderBy: { id: "desc" },
    take: MOST,
  });
  return rows.map(({ bike, verdicts, modelCardId: _, ...row }) => ({
    ...row,
    bike: [bike.customer.name, bike.plate].filter(Boolean).join(", "),
    state: stateOf(row.heldBecause, verdicts[0]?.act),
    why: verdicts[0]?.why ?? "",
  }));
}

const stateOf = (held: string, act: string | undefined): LessonState =>
  act === "takeOut" ? "taken out" : act === "release" ? "released" : held ? "held" : "teaches";

/** What may be decided of a lesson that stands so. */
export const LESSON_ACTS: Readonly<Record<LessonState, readonly JudgeLessonInput["act"][]>> = {
  teaches: ["takeOut"],
  held: ["release", "takeOut"],
  released: ["takeOut"],
  "taken out": ["putBack"],
};

/** Releases a held lesson to its card, takes one out of everything, or puts it back; answers the card. Refuses what it is already. */
export async function judgeLesson(shop: ShopHandle, input: JudgeLessonInput): Promise<number> {
  return shop.write(async (tx) => {
    const row = await tx.calibration.findUnique({ where: { id: input.lessonId }, select: SELECT });
    if (!row) throw new Refusal("There is no such lesson.", "Open the model card again.", {}, "missing");
    const state = stateOf(row.heldBecause, row.verdicts[0]?.act);
    if (!LESSON_ACTS[state].includes(input.act))
      throw new Refusal(
        `This lesson is “${state}” by now.`,
        "Open the model card again and decide from there.",
        {},
        "conflict",
      );
    await tx.lessonVerdict.create({
      data: {
        calibrationId: row.id,
        act: input.act,
        why: input.why,
        at: shop.now,
        staffId: shop.by.staffId,
      },
      select: { id: true },
    });
    await audit(tx, shop, "judged a lesson", "modelCard", row.modelCardId, {
      calibrationId: row.id,
      act: input.act,
      why: input.why,
    });
    return row.modelCardId;
  });
}
