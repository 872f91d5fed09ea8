import { z } from "zod";
import { formId } from "./ids";
import { SIGNATURE_FIELDS } from "./signature";

export const SignHandoverSchema = z.object({ jobId: formId(), ...SIGNATURE_FIELDS });
export type SignHandover = z.output<typeof SignHandoverSchema>;
