import { z } from "zod";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { day, text, whole, writtenAsItIs } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** What an order said when it was placed: kept with the mail that told it, since the order itself goes on changing. */
export interface PrintedOrder extends OrderOnPaper {
  readonly format: "throttlewright-order";
  readonly version: 2;
}

const PRINTED = {
  format: z.literal("throttlewright-order"),
  state: text,
  orderedOn: day.nullable(),
  note: text,
  supplier: z.looseObject({ name: text, address: text, email: text, customerNumber: text }),
  lines: z.array(
    z.looseObject({
      code: text,
      quantityMilli: whole,
      receivedMilli: whole,
      openMilli: whole,
      unitCostE4: whole.nullable(),
      dueOn: day.nullable(),
      part: z.looseObject({ code: text, name: text, unit: text }),
    }),
  ),
  shop: z.looseObject({
    name: text,
    address: text,
    phone: text,
    email: text,
    taxNumber: text,
    numberName: text.exactOptional(),
    numberMarks: z.array(text).exactOptional(),
    locale: text,
    country: text,
    currency: text,
  }),
  day,
};

const Version1 = z
  .looseObject({ ...PRINTED, version: z.literal(1), number: writtenAsItIs })
  .transform((order): PrintedOrder => ({ ...order, version: 2 }));

const Version2 = z.looseObject({
  ...PRINTED,
  version: z.literal(2),
  number: text,
}) satisfies z.ZodType<PrintedOrder>;

const ORDERS: Versions<PrintedOrder> = {
  format: "throttlewright-order",
  what: "a printed order",
  readers: { 1: Version1, 2: Version2 },
};

/** An order out of a mail; only `printedOrderIn` writes there. */
export function storedOrder(json: unknown): PrintedOrder {
  return readVersion(ORDERS, json);
}
