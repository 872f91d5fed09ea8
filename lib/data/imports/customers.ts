import { inTurns } from "@/lib/db/giveWay";
import type { CustomerRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow } from "@/lib/domain/imports/types";
import { rekeyBikesIn } from "../bikes/bikeKeys";
import { auditChanges, type Change } from "../common/changes";
import { chunks, fetched } from "../common/chunks";
import { customerKey } from "../customers/customers";
import { type Decide, differing, filledOf } from "./types";

/** Customers by their key in the file. */
export const decideCustomers: Decide<CustomerRow> = async (reader, rows) => {
  const stored = await fetched(
    rows.map((row) => row.key),
    (keys) => reader.customer.findMany({ where: { importKey: { in: keys } }, orderBy: { id: "asc" } }),
  );
  const byKey = new Map(stored.map((customer) => [customer.importKey, customer]));
  const adds: ReadRow<CustomerRow>[] = [];
  const changes: (Change & { searchKey: string })[] = [];
  for await (const row of inTurns(rows)) {
    const before = byKey.get(row.key);
    if (!before) adds.push(row);
    else {
      const to = differing(before, row.values);
      const from = Object.fromEntries(Object.keys(to).map((key) => [key, before[key as "name"]]));
      if (Object.keys(to).length > 0)
        changes.push({
          id: before.id,
          version: before.version,
          from,
          to,
          searchKey: customerKey({ ...before, ...to }),
        });
    }
  }
  return {
    added: adds.length,
    changed: changes.length,
    unchanged: rows.length - adds.length - changes.length,
    problems: [],
    notes: [],
    async store(tx, shop) {
      for (const some of chunks(adds))
        await tx.customer.createMany({
          data: some.map(({ key, values }) => {
            const fields = { name: "", email: "", phone: "", address: "", ...filledOf(values) };
            return { ...fields, importKey: key, searchKey: customerKey(fields), createdAt: shop.now };
          }),
        });
      for (const { id, to, searchKey } of changes)
        await tx.customer.updateMany({
          where: { id },
          data: { ...to, searchKey, version: { increment: 1 } },
        });
      for (const { id, to } of changes) if ("name" in to) await rekeyBikesIn(tx, { customerId: id });
      await auditChanges(tx, shop, "customer", changes);
    },
  };
};
