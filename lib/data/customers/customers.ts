import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { CustomerInput, CustomerQueryInput } from "@/lib/schemas/customers";
import { versionToReplace } from "@/lib/schemas/typedNumber";
import { rekeyBikesIn } from "../bikes/bikeKeys";
import { auditChange, changedMeanwhile } from "../common/changes";
import { mergedOrMissing } from "../common/merged";
import { rowsMatching } from "../common/narrow";
import { ordered } from "../common/ordered";

const PAGE = 50;

const NAMES: Readonly<Record<string, string>> = {
  taxNumber: "the tax number",
  discountBp: "the discount",
  discountClass: "the discount's name",
  business: "whether it is a business",
  noLetters: "whether letters are written",
};

/** The text a customer is found by. */
export function customerKey(customer: {
  name: string;
  email: string;
  phone: string;
  address: string;
}): string {
  return searchKey(
    customer.name,
    customer.email,
    customer.phone,
    customer.phone.replace(/\D/g, ""),
    customer.address,
  );
}

/** Customers by name or by when they were added, narrowed by a search. */
export async function listCustomers(shop: ShopHandle, query: CustomerQueryInput) {
  const rows = await shop.read.customer.findMany({
    where: await rowsMatching(shop, "Customer", query.q),
    select: {
      id: true,
      name: true,
      phone: true,
      email: true,
      business: true,
      createdAt: true,
      bikes: {
        select: { modelCard: { select: { make: true, model: true } } },
        orderBy: { id: "desc" },
        take: 3,
      },
    },
    orderBy: ordered<"name">(query.sort),
    take: PAGE + 1,
    ...(query.after ? { cursor: { id: query.after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page, next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}

/** All a form needs of one customer; null when there is none. */
export async function getCustomerToEdit(shop: ShopHandle, id: number) {
  return shop.read.customer.findUnique({
    where: { id },
    select: {
      id: true,
      version: true,
      name: true,
      email: true,
      phone: true,
      address: true,
      language: true,
      noLetters: true,
      business: true,
      taxNumber: true,
      discountBp: true,
      discountClass: true,
      notes: true,
    },
  });
}

const HISTORY = 25;

const INVOICE = {
  id: true,
  kind: true,
  number: true,
  written: true,
  state: true,
  issuedOn: true,
  dueOn: true,
  grossMinor: true,
  prepaidMinor: true,
  paidMinor: true,
} as const;

/** One customer with bikes and the newest quotes, jobs and invoices; null when there is none. Without `invoices` none are read. */
export async function getCustomer(shop: ShopHandle, id: number, may: { invoices: boolean }) {
  const newest = { orderBy: { id: "desc" }, take: HISTORY } as const;
  const customer = await shop.read.customer.findUnique({
    where: { id },
    select: {
      id: true,
      name: true,
      email: true,
      phone: true,
      address: true,
      language: true,
      noLetters: true,
      business: true,
      taxNumber: true,
      discountBp: true,
      discountClass: true,
      notes: true,
      createdAt: true,
      bikes: {
        select: {
          id: true,
          plate: true,
          year: true,
          colour: true,
          odometerKm: true,
          modelCard: { select: { make: true, model: true } },
        },
        orderBy: { id: "desc" },
        take: 100,
      },
      quotes: {
        select: { id: true, number: true, title: true, state: true, grossMinor: true, createdAt: true },
        ...newest,
      },
      jobs: {
        select: {
          id: true,
          number: true,
          title: true,
          state: true,
          stopped: true,
          arrivedAt: true,
          createdAt: true,
        },
        ...newest,
      },
    },
  });
  if (!customer) return null;
  const invoices = may.invoices
    ? await shop.read.invoice.findMany({
        where: { customerId: id },
        select: {
          ...INVOICE,
          takenBack: true,
          payments: {
            where: { kind: "writeOff" },
            select: { amountMinor: true },
            orderBy: { id: "asc" },
            take: 200,
          },
        },
        ...newest,
      })
    : [];
  return {
    ...customer,
    invoices: invoices.map(({ payments, ...invoice }) => ({
      ...invoice,
      writtenOff: payments.reduce((sum, one) => sum + one.amountMinor, 0) > 0,
    })),
  };
}

function fieldsOf(input: CustomerInput) {
  return {
    name: input.name,
    email: input.email,
    phone: input.phone,
    address: input.address,
    language: input.language,
    noLetters: input.noLetters,
    business: input.business,
    taxNumber: input.taxNumber,
    discountBp: Math.round((input.discountPercent ?? 0) * 100),
    discountClass: input.discountClass,
    notes: input.notes,
  };
}

/** Makes a customer, once per key; answers the id. */
export async function createCustomer(shop: ShopHandle, input: CustomerInput, key?: string): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "added a customer", { ...input, key }, async () => {
      const fields = fieldsOf(input);
      const made = await tx.customer.create({
        data: { ...fields, searchKey: customerKey(fields), createdAt: shop.now },
        select: { id: true },
      });
      await audit(tx, shop, "added", "customer", made.id, { name: fields.name });
      return made.id;
    }),
  );
}

/** Changes a customer from the version the form was drawn with; a newer one is refused with what changed. */
export async function changeCustomer(shop: ShopHandle, id: number, input: CustomerInput): Promise<number> {
  return shop.write(async (tx) => {
    const before = await tx.customer.findUnique({ where: { id } });
    if (!before) throw await mergedOrMissing(tx, "customer", id);
    const seen = versionToReplace(input);
    const fields = fieldsOf(input);
    await demandOne(
      tx.customer.updateMany({
        where: { id, version: seen },
        data: { ...fields, searchKey: customerKey(fields), version: { increment: 1 } },
      }),
      async () =>
        discountField(await changedMeanwhile(tx, "customer", "customer", id, seen, before.version, NAMES)),
    );
    const was = Object.fromEntries(
      Object.keys(fields).map((key) => [key, before[key as keyof typeof fields]]),
    );
    if (fields.name !== before.name) await rekeyBikesIn(tx, { customerId: id });
    await auditChange(tx, shop, "customer", id, seen + 1, was, fields);
    return id;
  });
}

/** The form's field is a percentage; the record's is basis points. */
function discountField(refusal: Refusal): Refusal {
  const { discountBp, ...fields } = refusal.fields;
  if (discountBp === undefined) return refusal;
  const inPercent = discountBp.replace(/"(\d+)"/g, (_, bp: string) => `"${Number(bp) / 100} %"`);
  return new Refusal(
    refusal.message,
    refusal.remedy,
    { ...fields, discountPercent: inPercent },
    refusal.kind,
  );
}
