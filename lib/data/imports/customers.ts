import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { inTurns } from "@/lib/db/giveWay";
import type { CustomerRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow } from "@/lib/domain/imports/types";
import { rekeyBikesIn } from "../bikes/bikeKeys";
import { auditChanges } from "../common/changes";
import { chunks } from "../common/chunks";
import { customerKey } from "../customers/customers";
import { knownRecords } from "./known";
import { learnKeysIn } from "./learn";
import { type Decide, type Entry, filledOf, type Reader } from "./types";
import { Updates } from "./updates";

type Known = Prisma.CustomerGetPayload<object>;

const findCustomers = (reader: Reader) => ({
  byKeys: (keys: string[]) =>
    reader.customer.findMany({ where: { importKey: { in: keys } }, orderBy: { id: "asc" } }),
  byIds: (ids: number[]) => reader.customer.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } }),
  keyOf: (customer: { importKey: string | null }) => customer.importKey,
});

/** Customers by their key in the file. */
export const decideCustomers: Decide<CustomerRow> = async (reader, rows, _column, { byWords }) => {
  const known = await knownRecords<Known>(reader, "customer", rows, findCustomers(reader));
  const adds: ReadRow<CustomerRow>[] = [];
  const updates = new Updates<Known>(byWords);
  for await (const row of inTurns(rows)) {
    const before = known.of(row);
    if (before) updates.take(before, row.values);
    else adds.push(row);
  }
  const changes = updates.changes((customer) => customerKey(customer));
  return {
    added: adds.length,
    changed: changes.length,
    unchanged: rows.length - adds.length - updates.rowsThatChange,
    problems: [],
    notes: [],
    async store(tx, shop) {
      const entries: Entry[] = [];
      for (const some of chunks(adds)) {
        const made = await tx.customer.createManyAndReturn({
          data: some.map(({ key, values }) => {
            const fields = { name: "", email: "", phone: "", address: "", ...filledOf(values) };
            return { ...fields, importKey: key, searchKey: customerKey(fields), createdAt: shop.now };
          }),
          select: { id: true },
        });
        entries.push(
          ...made.map(({ id }): Entry => ({ noun: "customer", nounId: id, act: "added", version: 1 })),
        );
      }
      for (const { id, to, searchKey } of changes)
        await tx.customer.updateMany({
          where: { id },
          data: { ...to, searchKey, version: { increment: 1 } },
        });
      for (const { id, to } of changes) if ("name" in to) await rekeyBikesIn(tx, { customerId: id });
      await auditChanges(tx, shop, "customer", changes);
      await learnKeysIn(tx, known.learned);
      return [...entries, ...updates.entries("customer", changes), ...known.learned];
    },
  };
};
