import { z } from "zod";
import { formId } from "./ids";

export const MailIdSchema = z.object({ id: formId() });
