import { z } from "zod";

/** The largest number that a database keeps as an Int. */
const LARGEST = 2_147_483_647;

/** An id as text: plain digits from 1, no larger than a database's ids go. */
const idText = (message: string) =>
  z
    .string(message)
    .regex(/^[1-9]\d{0,9}$/, message)
    .transform(Number)
    .pipe(z.int(message).max(LARGEST, message));

/** A record's id from a hidden field or an address. */
export const recordId = idText("Choose one from the list.");

/** An optional list parameter of an address: a cursor, or a record to begin with. */
export const cursorId = recordId.optional().catch(undefined);

/** The id that a text says; null where it says none that there could be. */
export function idIn(text: unknown): number | null {
  const read = recordId.safeParse(text);
  return read.success ? read.data : null;
}

/** A whole number from 1 that a form sends along: an id, or the version of a record. */
export const formId = (message = "Choose one.") =>
  z.coerce.number(message).int(message).min(1, message).max(LARGEST, message);

/** A record to be removed, as the page that was looked at knew it. */
export const RemoveRecordSchema = z.object({ id: formId(), version: formId() });
