import { beforeAll, describe, expect, it } from "vitest";
import {
  changeCustomer,
  createCustomer,
  getCustomer,
  getCustomerToEdit,
  listCustomers,
} from "@/lib/data/customers/customers";
import { Refusal } from "@/lib/domain/refusal";
import { CustomerQuery, CustomerSchema } from "@/lib/schemas/customers";
import { as, type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

const typed = (fields: Record<string, unknown>) => CustomerSchema.parse({ name: "Ines Valdborg", ...fields });
const refused = (run: Promise<unknown>): Promise<Refusal> =>
  run.then(
    () => {
      throw new Error("It was not refused.");
    },
    (cause: unknown) => {
      expect(cause).toBeInstanceOf(Refusal);
      return cause as Refusal;
    },
  );

describe("a customer form", () => {
  it("says what to do about a blank name, a wrong address and a discount above all", () => {
    const read = CustomerSchema.safeParse({ name: " ", email: "ines", discountPercent: "101" });
    const told = Object.fromEntries(
      read.error?.issues.map((issue) => [issue.path.join("."), issue.message]) ?? [],
    );
    expect(told.name).toContain("enter it");
    expect(told.email).toContain("name@example.org");
    expect(told.discountPercent).toContain("0 to 100");
  });
  it("reads a decimal comma, and a blank discount as none", () => {
    expect(typed({ discountPercent: "7,5" }).discountPercent).toBe(7.5);
    expect(typed({}).discountPercent).toBeNull();
  });
});

describe("a customer", () => {
  it("is made once for one key, in one shop only", async () => {
    const { a, b } = shops;
    const first = await createCustomer(
      a,
      typed({ name: "Bjørg Åsen", discountPercent: "5" }),
      "customer-key-1",
    );
    const again = await createCustomer(
      a,
      typed({ name: "Bjørg Åsen", discountPercent: "5" }),
      "customer-key-1",
    );
    expect(again).toBe(first);
    expect((await getCustomerToEdit(a, first))?.discountBp).toBe(500);
    expect(await getCustomerToEdit(b, first)).toBeNull();
    const query = CustomerQuery.parse({ q: "bjorg asen" });
    expect((await listCustomers(a, query)).rows.map((row) => row.id)).toEqual([first]);
    expect((await listCustomers(b, query)).rows).toEqual([]);
  });

  it("changed by two people tells the second what the first changed, and keeps the first's", async () => {
    const { a } = shops;
    const id = await createCustomer(a, typed({ phone: "0400 1" }));
    const ines = as(a, { by: { ...a.by, name: "Desk Person" } });
    await changeCustomer(ines, id, typed({ version: "1", phone: "0400 2", discountPercent: "10" }));
    const refusal = await refused(
      changeCustomer(a, id, typed({ version: "1", phone: "0400 3", notes: "rides in winter" })),
    );
    expect(refusal.kind).toBe("conflict");
    expect(refusal.message).toContain("Desk Person");
    expect(refusal.fields.phone).toBe('Desk Person changed phone from "0400 1" to "0400 2".');
    expect(refusal.fields.discountPercent).toContain('from "0 %" to "10 %"');
    expect(refusal.fields).toHaveProperty(["over.2"]);
    expect(refusal.fields).not.toHaveProperty("notes");
    expect((await getCustomerToEdit(a, id))?.phone).toBe("0400 2");
  });

  it("is saved over exactly the version that was shown, never over a later one", async () => {
    const { a } = shops;
    const id = await createCustomer(a, typed({ phone: "1" }));
    await changeCustomer(a, id, typed({ version: "1", phone: "2" }));
    await changeCustomer(a, id, typed({ version: "2", phone: "3" }));
    const late = await refused(
      changeCustomer(a, id, typed({ version: "1", over: { "2": "on" }, phone: "4" })),
    );
    expect(Object.keys(late.fields)).toContain("over.3");
    await changeCustomer(a, id, typed({ version: "1", over: { "3": "on" }, phone: "4" }));
    expect(await getCustomerToEdit(a, id)).toMatchObject({ phone: "4", version: 4 });
  });

  it("changed by many at once is changed by one of them", async () => {
    const { a } = shops;
    const id = await createCustomer(a, typed({}));
    const tries = await Promise.allSettled(
      Array.from({ length: 8 }, (_, at) => changeCustomer(a, id, typed({ version: "1", phone: `${at}` }))),
    );
    expect(tries.filter((each) => each.status === "fulfilled")).toHaveLength(1);
    expect((await getCustomerToEdit(a, id))?.version).toBe(2);
  });

  it("that is not there is refused as missing", async () => {
    const refusal = await refused(changeCustomer(shops.a, 999_999, typed({ version: "1" })));
    expect(refusal.kind).toBe("missing");
  });

  it("shows invoices only to those who may see them", async () => {
    const id = await createCustomer(shops.a, typed({ name: "No Invoices" }));
    expect(await getCustomer(shops.a, id, { invoices: false })).toMatchObject({
      invoices: [],
      bikes: [],
      quotes: [],
      jobs: [],
    });
  });
});

it("a list longer than a page is walked to its end, each customer once, in order", async () => {
  const { b } = shops;
  for (let at = 0; at < 120; at++)
    await createCustomer(b, typed({ name: `Rider ${String(at % 40).padStart(2, "0")}` }));
  const names: string[] = [];
  const ids = new Set<number>();
  let after: string | undefined;
  do {
    const page = await listCustomers(b, CustomerQuery.parse({ q: "rider", after }));
    for (const row of page.rows) {
      names.push(row.name);
      ids.add(row.id);
    }
    after = page.next === null ? undefined : String(page.next);
  } while (after);
  expect(ids.size).toBe(120);
  expect(names).toEqual([...names].sort());
});
