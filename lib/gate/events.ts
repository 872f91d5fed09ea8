import { directory } from "@/lib/db/directory";

/** Appends to the directory's record of sign-ins, refusals and role changes. */
export async function note(
  act: string,
  personId: string | null,
  shopId: string | null,
  detail: string,
  at: Date,
): Promise<void> {
  await directory().write((tx) => tx.securityEvent.create({ data: { act, personId, shopId, detail, at } }));
}
