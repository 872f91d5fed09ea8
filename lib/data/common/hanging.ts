import { Refusal } from "@/lib/domain/refusal";

/** Refuses to remove what something hangs on, with all of what does. Counts by noun. */
export function demandNothingHangs(name: string, counts: Readonly<Record<string, number>>): void {
  const hanging = Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([noun, count]) => `${count} ${noun}${count === 1 ? "" : "s"}`);
  if (hanging.length > 0)
    throw new Refusal(
      `${name} has ${hanging.join(", ")}, which would be lost.`,
      "Only what was made by mistake can be removed: remove those first, or leave it as it is.",
    );
}
