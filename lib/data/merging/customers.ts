import { demandOne } from "@/lib/db/guard";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { rekeyBikesIn } from "../bikes/bikeKeys";
import { auditChange, auditChanges } from "../common/changes";
import { mergedOrMissing } from "../common/merged";
import { customerKey } from "../customers/customers";
import { counted, joinFields, type Plains } from "./fields";
import { auditMerge, changedSince, demandMergeable, noteMergeIn } from "./record";
import type { MergePreview, Pair, Side } from "./types";

type Reads = Pick<ShopTx, "customer" | "bike" | "quote" | "job" | "booking" | "invoice">;

const NAMES: Readonly<Record<string, string>> = {
  email: "E-mail",
  phone: "Phone",
  address: "Address",
  business: "Business",
  taxNumber: "Tax number",
  language: "Language",
  noLetters: "No letters",
  notes: "Notes",
};

/** What merging one customer into another would move and fill. Null where one of them is not there. */
export async function previewCustomers(reads: Reads, keptId: number, goneId: number) {
  const [kept, gone] = await Promise.all([
    reads.customer.findUnique({ where: { id: keptId } }),
    reads.customer.findUnique({ where: { id: goneId } }),
  ]);
  if (!kept || !gone || keptId === goneId) return null;
  const where = { customerId: goneId };
  const side = (row: typeof kept): Side => ({
    id: row.id,
    version: row.version,
    name: row.name,
    about: [row.phone, row.email, row.address.replace(/\s+/g, " ")].filter(Boolean).join(", "),
  });
  const joined = joinFields(kept as unknown as Plains, gone as unknown as Plains, NAMES);
  const preview: MergePreview = {
    kept: side(kept),
    gone: side(gone),
    moves: counted({
      bike: await reads.bike.count({ where }),
      quote: await reads.quote.count({ where }),
      job: await reads.job.count({ where }),
      booking: await reads.booking.count({ where }),
      invoice: await reads.invoice.count({ where }),
    }),
    filled: joined.filled,
    // A discount is a decision about one customer: it does not go over by itself.
    left: [
      ...joined.left,
      ...(gone.discountBp > 0 && gone.discountBp !== kept.discountBp
        ? [{ name: "Discount", value: `${gone.discountBp / 100} %` }]
        : []),
    ],
    against: "",
  };
  return { preview, kept, gone, to: joined.to };
}

/**
 * Makes two customers one: bikes, quotes, jobs, bookings and invoices go over, blanks are filled, the other one goes and links
 * to it lead to the kept one. What documents say stays as it was printed.
 */
export async function mergeCustomers(shop: ShopHandle, pair: Pair): Promise<number> {
  const { keptId, goneId } = pair;
  return shop.write(async (tx) => {
    const found = await previewCustomers(tx, keptId, goneId);
    if (!found) throw await missing(tx, pair);
    const { preview, kept, gone, to } = found;
    demandMergeable(preview, pair);
    await noteMergeIn(tx, shop, "customer", preview, gone.importKey);
    const bikes = await tx.bike.findMany({
      where: { customerId: goneId },
      select: { id: true, version: true },
      orderBy: { id: "asc" },
    });
    await tx.bike.updateMany({
      where: { customerId: goneId },
      data: { customerId: keptId, version: { increment: 1 } },
    });
    await auditChanges(
      tx,
      shop,
      "bike",
      bikes.map((bike) => ({ ...bike, from: { customerId: goneId }, to: { customerId: keptId } })),
      "merge",
    );
    const over = { where: { customerId: goneId }, data: { customerId: keptId } };
    await tx.quote.updateMany(over);
    await tx.job.updateMany(over);
    await tx.booking.updateMany(over);
    await tx.invoice.updateMany(over);
    await tx.reminderStop.updateMany(over);
    if ((await tx.einvoiceBuyer.count({ where: { customerId: keptId } })) === 0)
      await tx.einvoiceBuyer.updateMany(over);
    await demandOne(tx.customer.deleteMany({ where: { id: goneId, version: pair.goneVersion } }), () =>
      changedSince(gone.name),
    );
    await demandOne(
      tx.customer.updateMany({
        where: { id: keptId, version: pair.keptVersion },
        data: { ...to, searchKey: customerKey({ ...kept, ...to }), version: { increment: 1 } },
      }),
      () => changedSince(kept.name),
    );
    await rekeyBikesIn(tx, { customerId: keptId });
    const from = Object.fromEntries(
      Object.keys(to).map((key) => [key, (kept as unknown as Plains)[key] ?? null]),
    );
    await auditChange(tx, shop, "customer", keptId, pair.keptVersion + 1, from, to);
    await auditMerge(tx, shop, "customer", preview);
    return keptId;
  });
}

async function missing(tx: ShopTx, { keptId, goneId }: Pair): Promise<Refusal> {
  if (keptId === goneId) return new Refusal("Both are the same customer.", "Choose the double of this one.");
  const kept = await tx.customer.findUnique({ where: { id: keptId }, select: { id: true } });
  return mergedOrMissing(tx, "customer", kept ? goneId : keptId);
}
