import { z } from "zod";
import { oneLine } from "./oneLine";
import { CONVENTIONS } from "./partWords";

/** What a drawer of jets has in common. Version 0: nothing was kept of it yet. */
export const JetFamilySchema = z.object({
  name: z.string().min(1).max(60),
  version: z.coerce.number().int().min(0),
  thread: oneLine(40, "Keep the thread within 40 characters.").default(""),
  convention: z.enum(CONVENTIONS, { error: "Choose how the sizes are numbered." }).default(""),
});
export type JetFamilyInput = z.output<typeof JetFamilySchema>;
