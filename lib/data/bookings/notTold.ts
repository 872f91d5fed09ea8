import type { ShopHandle } from "@/lib/db/shop";
import type { LetterKind } from "@/lib/domain/letters/kinds";
import { inPlaceOf, withheldFrom } from "../mail/letters";

const WHOM = { select: { name: true, phone: true, email: true, noLetters: true } } as const;

/** What the desk does where no letter tells of a booking, in words; empty where one does. */
export async function notTold(
  { read }: ShopHandle,
  id: number,
  kind: Extract<LetterKind, "booking" | "change" | "cancelled" | "missed">,
): Promise<string> {
  const booking = await read.booking.findUnique({
    where: { id },
    select: { guestName: true, guestPhone: true, customer: WHOM, job: { select: { customer: WHOM } } },
  });
  if (!booking) return "";
  const guest = { name: booking.guestName, phone: booking.guestPhone, email: "", noLetters: false };
  const customer = booking.job?.customer ?? booking.customer ?? guest;
  const withheld = await withheldFrom(read, kind, customer);
  if (!withheld) return "";
  const { message, remedy } = inPlaceOf(withheld, customer, false);
  return `${message} ${remedy}`;
}
