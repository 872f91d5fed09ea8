import type { CardView } from "@/lib/data/jobs/card";

/** Whether the person may work on a card now: the bike is here, and the job is not over. */
export function mayWorkOn(card: CardView, may: boolean): { works: boolean; mayWork: boolean } {
  const works = may && (card.arrivedAt !== null || card.state === "inWork" || card.state === "ride");
  const more = card.state === "ready" && card.steps.some((one) => one.state === "todo");
  return { works, mayWork: works && (more || ["waiting", "booked", "inWork", "ride"].includes(card.state)) };
}

/** Changes whenever something on the card did that its kept copy shows. */
export function markOf(card: CardView): string {
  const steps = card.steps.map((step) => `${step.id}.${step.version}.${step.notes.length}`);
  const parts = [...card.steps.flatMap((step) => step.parts), ...card.looseParts].map(
    (one) => `${one.id}.${one.reservedMilli}.${one.usedMilli}`,
  );
  return [card.version, card.running?.id ?? 0, ...steps, ...parts].join(" ");
}
