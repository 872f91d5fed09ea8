import { describe, expect, it } from "vitest";
import { removeBike } from "@/lib/data/bikes/remove";
import { listCustomers } from "@/lib/data/customers/customers";
import { removeCustomer } from "@/lib/data/customers/remove";
import { publishRevision } from "@/lib/data/packages/author";
import { getPackage } from "@/lib/data/packages/get";
import { takeStarter } from "@/lib/data/packages/starters";
import { createQuote } from "@/lib/data/quotes/write";
import { firstSteps, showFirstSteps } from "@/lib/data/today/firstSteps";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { STARTERS } from "@/lib/domain/packages/starters/starters";
import { readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

const steps = async (shop: ShopHandle) =>
  firstSteps(shop, await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } }));
const done = async (shop: ShopHandle) =>
  (await steps(shop))?.filter((step) => step.done).map((step) => step.key);

describe("a starter package taken over", () => {
  it("is a draft of the shop's own that can be published, once for one request; the other shop has none", async () => {
    const { a, b } = await twoShops();
    for (const { key } of STARTERS) {
      const id = await takeStarter(a, { starter: key, key: `take-${key}-1` });
      expect(await takeStarter(a, { starter: key, key: `take-${key}-1` })).toBe(id);
      const found = await getPackage(a, id);
      const draft = await a.read.packageRevision.findFirstOrThrow({ where: { packageId: id } });
      expect(draft.state).toBe("draft");
      await publishRevision(a, { revisionId: draft.id, version: draft.version });
      expect(found?.name).toBe(STARTERS.find((one) => one.key === key)?.name);
    }
    expect(await a.read.package.count()).toBe(STARTERS.length);
    expect(await b.read.package.count()).toBe(0);
  });

  it("gets a code that is free, and is refused where there is no such starter", async () => {
    const { a } = await twoShops();
    const [first] = STARTERS;
    if (!first) throw new Error("There are starters.");
    await takeStarter(a, { starter: first.key });
    const second = await takeStarter(a, { starter: first.key });
    expect((await getPackage(a, second))?.code).toBe(`${first.code}-2`);
    await expect(takeStarter(a, { starter: "rocket" })).rejects.toThrow("no such starter");
  });
});

describe("the list of first steps", () => {
  it("counts what was done, goes when it is put away, and comes back; in this shop alone", async () => {
    const { a, b } = await twoShops();
    const before = await done(a);
    await takeStarter(a, { starter: "single-reset" });
    expect(await done(a)).toEqual([...(before ?? []), "package"]);
    await showFirstSteps(a, false);
    expect(await steps(a)).toBeNull();
    expect(await done(b)).toEqual(before);
    await showFirstSteps(a, false);
    await showFirstSteps(a, true);
    expect(await done(a)).toContain("package");
    const acts = await a.read.auditEntry.findMany({ where: { noun: "shop" }, orderBy: { id: "asc" } });
    expect(acts.map((one) => one.act).slice(-2)).toEqual([
      "put first steps away",
      "brought back first steps",
    ]);
  });

  it("asks the database nothing once it was put away, and puts itself away once all of it is done", async () => {
    const { a, b } = await twoShops();
    const asked: string[] = [];
    const watched: ShopHandle = { ...a, read: askedOf(a.read, asked) };
    const settings = () => a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    const { bikeId, packageId } = await readyToQuote(a);
    await createQuote(a, { bikeId, packageId });
    await a.write(async (tx) => {
      await tx.settings.update({ where: { id: 1 }, data: { address: "1 Salt Road", bankDetails: "BSB 1" } });
      await tx.labourGrade.updateMany({ data: { rateSet: true } });
      await tx.staff.create({ data: { name: "Ada Lund", personId: "p-ada", role: "tuner", hours: {} } });
      await audit(tx, a, "changed hours", "person", 1);
    });
    expect(await firstSteps(watched, await settings())).toBeNull();
    expect(asked.length).toBe(9);
    expect((await settings()).firstSteps).toBe(false);
    asked.length = 0;
    expect(await firstSteps(watched, await settings())).toBeNull();
    expect(asked).toEqual([]);
    await showFirstSteps(b, false);
    expect(await steps(b)).toBeNull();
    const acts = await a.read.auditEntry.findMany({ where: { act: "finished first steps" } });
    expect(acts.length).toBe(1);
  });
});

/** The same reader, which notes each question put to it. */
function askedOf(read: ShopHandle["read"], asked: string[]): ShopHandle["read"] {
  return new Proxy(read, {
    get(target, table) {
      const rows = Reflect.get(target, table) as object;
      if (typeof table !== "string" || table.startsWith("$") || typeof rows !== "object") return rows;
      return new Proxy(rows, {
        get(delegate, verb) {
          asked.push(`${table}.${String(verb)}`);
          return Reflect.get(delegate, verb);
        },
      });
    },
  });
}

describe("what was made by mistake", () => {
  it("is removed while nothing hangs on it, as it was looked at, and told in the audit trail; the other shop keeps its own", async () => {
    const { a, b } = await twoShops();
    const bikeIn = async (shop: typeof a) => {
      const createdAt = shop.now;
      return shop.write((tx) =>
        tx.bike.create({
          data: {
            customer: { create: { name: "Ines Valdborg", searchKey: "ines valdborg", createdAt } },
            modelCard: {
              create: {
                make: "Tarrant",
                model: "Drover 580",
                displacementCc: 578,
                carburettorType: "constant vacuum",
                searchKey: "tarrant drover 580",
                createdAt,
              },
            },
            searchKey: "tarrant drover 580",
            createdAt,
            carburettors: { create: [{ position: 1, label: "Single" }] },
          },
          select: { id: true, customerId: true },
        }),
      );
    };
    const { customerId, id: bikeId } = await bikeIn(a);
    const theirs = await bikeIn(b);
    await expect(removeCustomer(a, { id: customerId, version: 1 })).rejects.toThrow(
      "has 1 bike, which would be lost",
    );
    await expect(removeBike(a, { id: bikeId, version: 7 })).rejects.toMatchObject({ kind: "conflict" });
    await removeBike(a, { id: bikeId, version: 1 });
    await removeCustomer(a, { id: customerId, version: 1 });
    expect(await a.read.customer.count()).toBe(0);
    expect((await listCustomers(a, { q: "Valdborg", sort: "name" })).rows).toEqual([]);
    await expect(removeCustomer(a, { id: customerId, version: 1 })).rejects.toMatchObject({
      kind: "missing",
    });
    expect(await b.read.bike.count({ where: { id: theirs.id } })).toBe(1);
    const acts = await a.read.auditEntry.findMany({ where: { act: "removed" }, orderBy: { id: "asc" } });
    expect(acts.map((one) => one.noun)).toEqual(["bike", "customer"]);
  });

  it("stays where a quote or a setting sheet hangs on it, with all of what does", async () => {
    const { a } = await twoShops();
    const { bikeId, packageId } = await readyToQuote(a);
    await createQuote(a, { bikeId, packageId });
    const bike = await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    await expect(removeBike(a, { id: bikeId, version: bike.version })).rejects.toThrow(/1 quote/);
    await expect(removeCustomer(a, { id: bike.customerId, version: 1 })).rejects.toThrow(/1 bike, 1 quote/);
  });
});
