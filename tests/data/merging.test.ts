import { beforeEach, describe, expect, it } from "vitest";
import { changeBike } from "@/lib/data/bikes/bikes";
import { problemsOf } from "@/lib/data/books/invariants";
import { keptInstead } from "@/lib/data/common/merged";
import { changeCustomer, createCustomer, getCustomer } from "@/lib/data/customers/customers";
import { removeCustomer } from "@/lib/data/customers/remove";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { mergeBikes, previewBikes } from "@/lib/data/merging/bikes";
import { mergeCustomers, previewCustomers } from "@/lib/data/merging/customers";
import { mergeParts, previewParts } from "@/lib/data/merging/parts";
import { recipeLacks } from "@/lib/data/packages/lacks";
import { createPart, putOnOrder } from "@/lib/data/parts/save";
import { partRows } from "@/lib/data/quotes/partRows";
import { findScanned } from "@/lib/data/stock/find";
import { recordMove } from "@/lib/data/stock/moves";
import { provePart } from "@/lib/data/stock/parts";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { BikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { NewPartSchema } from "@/lib/schemas/parts";
import { fileOf } from "../support/imports/fileOf";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { makeJob } from "../support/jobs";
import { BREATHING, makeBike, readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const pairOf = (preview: {
  kept: { id: number; version: number };
  gone: { id: number; version: number };
}) => ({
  keptId: preview.kept.id,
  keptVersion: preview.kept.version,
  goneId: preview.gone.id,
  goneVersion: preview.gone.version,
});

describe("two customers", () => {
  async function doubles(shop: ShopHandle) {
    await nameShop(shop);
    const { jobId, ready } = await readyJob(shop);
    const invoiceId = await issuedInvoice(shop, jobId);
    const keptId = await createCustomer(
      shop,
      CustomerSchema.parse({ name: "Valdborg, Ines", phone: "0412 345 678", notes: "Calls first" }),
    );
    return { invoiceId, jobId, keptId, goneId: ready.customerId, bikeId: ready.bikeId };
  }

  it("become one: what hangs on the other goes over, documents stay as they were printed, the books add up", async () => {
    const one = await doubles(a);
    const other = await doubles(b);
    const before = await invoiceNow(a, one.invoiceId);
    const found = await previewCustomers(a.read, one.keptId, one.goneId);
    expect(found?.preview).toMatchObject({
      moves: ["1 bike", "1 quote", "1 job", "1 invoice"],
      filled: [
        { name: "E-mail", value: "customer@example.com" },
        { name: "Address", value: "9 Ridge Road\nSaltpan" },
      ],
      left: [],
      against: "",
    });
    expect(await mergeCustomers(a, pairOf(found?.preview as never))).toBe(one.keptId);

    const kept = await getCustomer(a, one.keptId, { invoices: true });
    expect(kept).toMatchObject({
      name: "Valdborg, Ines",
      email: "customer@example.com",
      phone: "0412 345 678",
    });
    expect([kept?.bikes.length, kept?.quotes.length, kept?.jobs.length, kept?.invoices.length]).toEqual([
      1, 1, 1, 1,
    ]);
    expect(await invoiceNow(a, one.invoiceId)).toEqual({ ...before, customerId: one.keptId });
    expect(JSON.stringify((await invoiceNow(a, one.invoiceId)).frozen)).toContain("Ines Valdborg");
    expect(await getCustomer(a, one.goneId, { invoices: true })).toBeNull();
    expect(await keptInstead(a.read, "customer", one.goneId)).toMatchObject({ keptId: one.keptId });
    expect(await problemsOf(a)).toEqual([]);
    const bike = await a.read.bike.findUniqueOrThrow({ where: { id: one.bikeId } });
    expect(bike.searchKey).toContain("valdborg, ines");
    const told = await a.read.auditEntry.findFirst({ where: { act: "merged" }, orderBy: { id: "desc" } });
    expect(told).toMatchObject({ noun: "customer", nounId: one.keptId, personName: "Test Owner" });
    // The other shop has records of the same ids.
    expect(other.goneId).toBe(one.goneId);
    expect((await getCustomer(b, other.goneId, { invoices: true }))?.bikes).toHaveLength(1);
    expect(await keptInstead(b.read, "customer", one.goneId)).toBeNull();
  });

  it("are told to forms that were open: on the one that went, and on its bike", async () => {
    const { keptId, goneId, bikeId } = await doubles(a);
    const found = await previewCustomers(a.read, keptId, goneId);
    const bike = await a.read.bike.findUniqueOrThrow({
      where: { id: bikeId },
      include: { carburettors: true },
    });
    await mergeCustomers(a, pairOf(found?.preview as never));
    await expect(
      changeCustomer(a, goneId, CustomerSchema.parse({ name: "Ines V", version: "1" })),
    ).rejects.toThrow("Test Owner merged Ines Valdborg with another customer while you were typing");
    const edit = BikeSchema.parse({
      id: String(bikeId),
      version: String(bike.version),
      customerId: String(keptId),
      modelCardId: String(bike.modelCardId),
      plate: "NEW 1",
      carburettors: {},
    });
    await expect(changeBike(a, edit)).rejects.toMatchObject({
      fields: expect.objectContaining({ customerId: expect.stringContaining("Test Owner (merge)") }),
    });
  });

  it("are not merged where one was changed since it was looked at, with itself, or twice", async () => {
    const { keptId, goneId } = await doubles(a);
    const pair = pairOf((await previewCustomers(a.read, keptId, goneId))?.preview as never);
    await changeCustomer(
      a,
      goneId,
      CustomerSchema.parse({ name: "Ines V", version: String(pair.goneVersion) }),
    );
    await expect(mergeCustomers(a, pair)).rejects.toThrow("was changed since you looked");
    expect(await a.read.merged.count()).toBe(0);
    await expect(mergeCustomers(a, { ...pair, goneId: keptId })).rejects.toThrow("the same customer");
    const again = pairOf((await previewCustomers(a.read, keptId, goneId))?.preview as never);
    await mergeCustomers(a, again);
    await expect(mergeCustomers(a, again)).rejects.toThrow("merged Ines V with another");
    // The database itself lets an issued document follow a merge, and nobody else.
    const stranger = await createCustomer(a, CustomerSchema.parse({ name: "Stranger" }));
    const { id } = await a.read.invoice.findFirstOrThrow({ orderBy: { id: "asc" } });
    await expect(
      a.write((tx) => tx.invoice.update({ where: { id }, data: { customerId: stranger } })),
    ).rejects.toThrow("never changes");
  });

  it("lead files and links on, also over two merges, until the kept one is removed", async () => {
    await runImport(
      a,
      fileOf(
        "customers",
        "Kundenr;Navn;Tlf\n7;Kari Fossvik;90011222\n8;Kari F;90011222\n9;K Fossvik;90011222",
      ),
    );
    const [one, two, three] = await a.read.customer.findMany({ orderBy: { id: "asc" } });
    for (const [keptId, goneId] of [
      [one?.id, two?.id],
      [three?.id, one?.id],
    ])
      await mergeCustomers(
        a,
        pairOf((await previewCustomers(a.read, keptId as number, goneId as number))?.preview as never),
      );
    expect(await keptInstead(a.read, "customer", two?.id as number)).toMatchObject({ keptId: three?.id });
    const view = await previewImport(
      a,
      fileOf("customers", "Kundenr;Navn;Tlf\n7;Kari Fossvik;90011222\n8;Kari Fossvik;90011222"),
    );
    expect(view).toMatchObject({ added: 0, doubles: [] });
    const left = await a.read.customer.findFirstOrThrow({ orderBy: { id: "asc" } });
    await removeCustomer(a, left);
    expect(await a.read.merged.count()).toBe(0);
    expect(await a.read.knownKey.count()).toBe(0);
  });
});

describe("two bikes", () => {
  it("become one: sheets, described parts, jobs and lessons go over, the odometer is the further one", async () => {
    await nameShop(a);
    const { jobId, ready } = await readyJob(a);
    const other = await makeBike(a, "Ines V");
    await makeBike(b, "Ines V");
    await a.write(async (tx) => {
      await tx.bike.update({ where: { id: ready.bikeId }, data: { odometerKm: 41_200, plate: "S12 AB" } });
      await tx.fittedPart.create({
        data: {
          bikeId: ready.bikeId,
          carburettor: 1,
          kind: "needle",
          state: "fitted",
          facts: {},
          how: "measured",
          takenAt: a.now,
        },
      });
      await tx.vacuumBalance.create({
        data: { bikeId: ready.bikeId, at: a.now, unit: "kPa", band: 2.7, bandFrom: "practice" },
      });
      await tx.photoPair.create({
        data: { bikeId: ready.bikeId, subject: "plug", throttle: "half", at: a.now },
      });
      await tx.effect.create({
        data: {
          bikeId: ready.bikeId,
          jobId,
          side: "before",
          kind: "idle",
          value: 90,
          under: {},
          at: a.now,
        },
      });
    });
    const found = await previewBikes(a.read, other.bikeId, ready.bikeId);
    expect(found?.preview.moves.slice(0, 2)).toEqual(["2 setting sheets", "1 described part"]);
    expect(found?.preview.moves).toEqual(
      expect.arrayContaining(["1 vacuum balance", "1 photo pair", "1 before-and-after figure"]),
    );
    expect(found?.preview.filled).toContainEqual({ name: "Odometer, km", value: "41200" });
    expect(found?.preview.left).toEqual([{ name: "Owner", value: "Ines Valdborg" }]);
    await mergeBikes(a, pairOf(found?.preview as never));
    const kept = await a.read.bike.findUniqueOrThrow({ where: { id: other.bikeId } });
    expect(kept).toMatchObject({ odometerKm: 41_200, plate: "S12 AB", year: 2006 });
    expect(await a.read.settingSheet.count({ where: { bikeId: other.bikeId } })).toBe(3);
    expect(await a.read.fittedPart.count({ where: { bikeId: other.bikeId } })).toBe(1);
    const moved = { where: { bikeId: other.bikeId } };
    expect(await a.read.vacuumBalance.count(moved)).toBe(1);
    expect([await a.read.photoPair.count(moved), await a.read.effect.count(moved)]).toEqual([1, 1]);
    expect((await a.read.job.findUniqueOrThrow({ where: { id: jobId } })).bikeId).toBe(other.bikeId);
    expect(await keptInstead(a.read, "bike", ready.bikeId)).toMatchObject({ keptId: other.bikeId });
    expect(await problemsOf(a)).toEqual([]);
    expect(await b.read.bike.count()).toBe(1);
    const { id } = await a.read.fittedPart.findFirstOrThrow({ orderBy: { id: "asc" } });
    await expect(
      a.write((tx) => tx.fittedPart.update({ where: { id }, data: { how: "read" } })),
    ).rejects.toThrow("only grows");
  });

  it("of two models are refused", async () => {
    const one = await makeBike(a, "Ines");
    const two = await makeJob(a);
    const found = await previewBikes(a.read, one.bikeId, two.bikeId);
    expect(found?.preview.against).toContain("one is on the card of a Tarrant Drover 580");
    await expect(mergeBikes(a, pairOf(found?.preview as never))).rejects.toThrow("cannot be merged");
  });
});

describe("two parts", () => {
  const part = (shop: ShopHandle, code: string, more: Record<string, string> = {}) =>
    createPart(
      shop,
      NewPartSchema.parse({ code, name: "Breather filter", kind: "filter", unit: "each", ...more }),
    );

  it("become one: stock adds up at its cost, jobs keep what they hold, codes and recipes lead on", async () => {
    await readyToQuote(a, 0);
    const goneId = (await a.read.part.findUniqueOrThrow({ where: { code: "BF-20" } })).id;
    const keptId = await part(a, "BF20", { bin: "C1" });
    await part(b, "BF20", { bin: "C1" });
    await recordMove(a, { partId: keptId, kind: "opening", quantityMilli: 2000, unitCostE4: 60_000 });
    await recordMove(a, {
      partId: goneId,
      kind: "opening",
      quantityMilli: 3000,
      unitCostE4: 90_000,
      bin: "D4",
    });
    await recordMove(a, {
      partId: goneId,
      kind: "receipt",
      quantityMilli: 1000,
      unitCostE4: 90_000,
      bin: "D5",
    });
    await putOnOrder(a, { partId: goneId, quantityMilli: 2000 });
    const job = await makeJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: job.id, partId: goneId, wantedMilli: 5000 }));
    const found = await previewParts(a.read, keptId, goneId);
    expect(found?.preview.moves.slice(0, 3)).toEqual(["4 of stock", "1 reservation", "1 open order line"]);
    await mergeParts(a, pairOf(found?.preview as never));

    const kept = await a.read.part.findUniqueOrThrow({ where: { id: keptId }, include: { bins: true } });
    expect(kept).toMatchObject({
      onHandMilli: 6000,
      reservedMilli: 5000,
      onOrderMilli: 2000,
      averageE4: 80_000,
    });
    expect(kept.bins.map((bin) => [bin.bin, bin.onHandMilli]).sort()).toEqual([
      ["C1", 2000],
      ["D4", 3000],
      ["D5", 1000],
    ]);
    const gone = await a.read.part.findUniqueOrThrow({ where: { id: goneId } });
    expect(gone).toMatchObject({ onHandMilli: 0, reservedMilli: 0, onOrderMilli: 0, active: false });
    for (const id of [keptId, goneId]) {
      const { ledgerMilli, onHandMilli } = await provePart(a, id);
      expect(ledgerMilli).toBe(onHandMilli);
    }
    // The ledger of the gone one is longer by what went out of it, and nothing of it was rewritten.
    const moves = await a.read.move.findMany({ where: { partId: goneId }, orderBy: { id: "asc" } });
    expect(moves.map((move) => [move.kind, move.quantityMilli])).toEqual([
      ["opening", 3000],
      ["receipt", 1000],
      ["split", -3000],
      ["split", -1000],
    ]);
    expect(await problemsOf(a)).toEqual([]);
    expect((await findScanned(a, "BF-20")).map((one) => one.id)).toEqual([keptId]);
    expect((await partRows(a.read, BREATHING)).find((row) => row.code === "BF-20")).toMatchObject({
      id: keptId,
    });
    expect(await recipeLacks(a, BREATHING)).toEqual([]);
    await runImport(a, fileOf("parts", "code,name,bin\nBF-20,Breather filter,E9"));
    expect(await a.read.part.findUniqueOrThrow({ where: { id: keptId } })).toMatchObject({
      code: "BF20",
      bin: "E9",
    });
    expect(await b.read.part.count()).toBe(1);
    expect(await b.read.knownKey.count()).toBe(0);
    await expect(
      mergeParts(a, { keptId: goneId, keptVersion: gone.version, goneId: keptId, goneVersion: 9 }),
    ).rejects.toThrow("was merged before");
  });

  it("counted in other units, or on an open count, are refused", async () => {
    const one = await part(a, "A");
    const two = await part(a, "B", { unit: "ml" });
    const three = await part(a, "C", { bin: "C1" });
    expect((await previewParts(a.read, one, two))?.preview.against).toContain(
      "counted in each, the other in ml",
    );
    await a.write((tx) =>
      tx.countSheet.create({ data: { bin: "C1", startedAt: a.now, lines: { create: { partId: three } } } }),
    );
    expect((await previewParts(a.read, one, three))?.preview.against).toContain("a count of bin C1 is open");
  });
});
