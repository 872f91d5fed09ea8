import type { ShopTx } from "@/lib/db/shop";
import { PHOTO, type PhotoNoun } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";

const WORD: Record<PhotoNoun, string> = {
  part: "part",
  bike: "bike",
  step: "step",
  finding: "finding",
  damage: "mark",
  pairBefore: "pair",
  pairAfter: "pair",
};

/** Photos name what they show without a relation: that it is there is asked in the write. */
export async function demandSubject(tx: ShopTx, noun: PhotoNoun, id: number): Promise<void> {
  const of = { where: { id }, select: { id: true } } as const;
  const found = {
    part: () => tx.part.findUnique(of),
    bike: () => tx.bike.findUnique(of),
    step: () => tx.step.findUnique(of),
    finding: () => tx.finding.findUnique(of),
    damage: () => tx.arrivalDamage.findUnique(of),
    pairBefore: () => tx.photoPair.findUnique(of),
    pairAfter: () => tx.photoPair.findUnique(of),
  }[noun];
  if (!(await found()))
    throw new Refusal(`There is no such ${WORD[noun]}.`, "Open it from its list.", {}, "missing");
}

/** What is signed for stays as it was signed, its photos too; and so does what a later record replaced. */
export async function demandOpen(tx: ShopTx, noun: PhotoNoun, id: number): Promise<void> {
  if (noun !== "damage") return;
  const shut = await tx.arrivalDamage.findFirst({
    where: { id, arrival: { OR: [{ signedAt: { not: null } }, { replacedBy: { isNot: null } }] } },
    select: { arrival: { select: { signedAt: true } } },
    orderBy: { id: "asc" },
  });
  if (shut)
    throw new Refusal(
      shut.arrival.signedAt
        ? "This arrival is signed: its photos stay as they are."
        : "A later record replaces this arrival: its photos stay as they are.",
      "Record the arrival anew, and take the photo there.",
      {},
      "conflict",
    );
}

export async function demandRoom(tx: ShopTx, noun: PhotoNoun, nounId: number): Promise<void> {
  const there = await tx.photo.count({ where: { noun, nounId, removedAt: null } });
  if (there >= PHOTO.mostOfOne)
    throw new Refusal(
      `This ${WORD[noun]} has ${there} photos, which is the most.`,
      "Remove one that says nothing any more.",
    );
}
