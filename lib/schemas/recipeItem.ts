import { z } from "zod";
import { id } from "./packages";

/** The lists of a recipe that are edited one item at a time. */
export const RECIPE_PARTS = ["groups", "options", "operations", "accesses", "rules"] as const;
export type RecipePart = (typeof RECIPE_PARTS)[number];

/** Which item a form is about: its key (blank for a new one), the key it should have, and the print it was drawn from. */
export const itemRef = {
  packageId: id,
  key: z.string().max(60).default(""),
  as: z
    .string()
    .trim()
    .max(60, "Keep the key within 60 characters.")
    .regex(/^[\p{L}\p{N}][\p{L}\p{N}-]*$/u, "Use letters, figures and hyphens, without spaces.")
    .or(z.literal(""))
    .default(""),
  seen: z.string().max(64).default(""),
  over: z.record(z.string().regex(/^\d{1,9}$/), z.string().max(40)).optional(),
  /** Another new one after this. */
  next: z.literal("another").optional().catch(undefined),
};

export interface ItemRef {
  readonly packageId: number;
  readonly key: string;
  readonly seen: string;
  /** The key wanted from now on; blank or absent: as it is. */
  readonly as?: string;
  readonly over?: Record<string, string> | undefined;
  readonly next?: "another" | undefined;
}

/** What a form said, parted into which item it is about and what that item should be. */
export function parted<T extends ItemRef>({ packageId, key, as, seen, over, next, ...item }: T) {
  return { packageId, key, as: as ?? "", seen, over, next, item };
}

const part = z.enum(RECIPE_PARTS);
/** One button of a list: which item goes up, down or out. */
export const ArrangeSchema = z.object({
  packageId: id,
  part,
  act: z
    .string()
    .max(80)
    .regex(/^(up|down|out):.+$/, "Press one of the buttons.")
    .transform((act) => {
      const at = act.indexOf(":");
      return { way: act.slice(0, at) as "up" | "down" | "out", key: act.slice(at + 1) };
    }),
});
export const BeginDraftSchema = z.object({ packageId: id });
