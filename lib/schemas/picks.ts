import { z } from "zod";

/** One row that a field offers to be chosen. */
export interface Pick {
  /** What the form sends: an id, or a part's code. */
  readonly value: string;
  readonly label: string;
  /** What tells it from another of the same label. */
  readonly sub: string;
}

export interface Picks<P extends Pick = Pick> {
  readonly rows: readonly P[];
  /** More rows hold the words than are offered: another word narrows them. */
  readonly more: boolean;
}

/** A customer as the counter chooses them, with the discount that is theirs. */
export interface Buyer extends Pick {
  readonly discountBp: number;
  readonly discountClass: string;
}

/** What a field asks while somebody types into it; more letters than a name has are left off. */
export const PickQuery = z.object({
  q: z
    .string()
    .transform((text) => text.slice(0, 120))
    .catch("")
    .default(""),
  /** Drawers of jets are offered among parts. */
  families: z
    .literal("yes")
    .optional()
    .catch(undefined)
    .transform((said) => said === "yes"),
});
