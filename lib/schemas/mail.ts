import { z } from "zod";

export const MailIdSchema = z.object({ id: z.coerce.number().int().positive() });
