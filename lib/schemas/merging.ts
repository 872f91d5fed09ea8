import { z } from "zod";
import { formId } from "./ids";

/** Two records to be made one, in the versions that were looked at. */
export const MergeSchema = z.object({
  keptId: formId(),
  keptVersion: formId(),
  goneId: formId(),
  goneVersion: formId(),
});
