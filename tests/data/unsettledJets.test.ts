import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { storedQuote } from "@/lib/data/documents/quote";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { previewInvoice } from "@/lib/data/invoices/get";
import { getCard } from "@/lib/data/jobs/card";
import { storedJets } from "@/lib/data/jobs/jets";
import { passStep } from "@/lib/data/jobs/pass";
import { sheetsOfJob } from "@/lib/data/jobs/sheets";
import { getQuote } from "@/lib/data/quotes/get";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { issuedInvoice, nameShop } from "../support/invoices";
import { jobNow } from "../support/jobs";
import { ORIGIN } from "../support/quotes";
import { ROAD, roadBike, roadShop } from "../support/roadPackage";
import { twoShops } from "../support/shops";

const RATES = { workshop: 9_000, bench: 12_000 };
const KESTREL = { make: "Kestrel", model: "Trail 400", displacementCc: 400, carburettors: 1, mainJet: null };
const TWIN = { make: "Orme", model: "Twin 750", displacementCc: 750, carburettors: 2, mainJet: null };

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

/** A quote for the jet alone, on a bike of which nobody knows what is fitted. */
async function quoted(shop: ShopHandle, bike = KESTREL, discountBp = 0) {
  const packageId = await roadShop(shop, RATES, {
    ...ROAD,
    options: ROAD.options.map((option) => ({ ...option, preset: option.key === "jet" })),
    operations: ROAD.operations.map((operation) => ({ ...operation, after: [] })),
  });
  const jet = await shop.read.part.findUniqueOrThrow({ where: { code: "RM-142.5" } });
  await recordMove(shop, { partId: jet.id, kind: "opening", quantityMilli: 3000, unitCostE4: 41_735 });
  const bikeId = await roadBike(shop, bike, discountBp);
  const id = await createQuote(shop, { bikeId, packageId });
  return { id, bikeId, jetId: jet.id };
}

/** The same, sent, accepted, and the card passed up to the step that fits the jet. */
async function atTheJet(shop: ShopHandle, bike = KESTREL, discountBp = 0) {
  const made = await quoted(shop, bike, discountBp);
  const { revisionId } = await sendQuote(shop, { id: made.id, version: 1, origin: ORIGIN });
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const { jobId } = await acceptQuote(shop, {
    revisionId,
    typedName: "Ines Valdborg",
    acknowledgements: storedQuote(row.frozen).acknowledgements.map((one) => one.key),
    shownHash: row.hash ?? "",
    agent: "test browser",
  });
  await shop.write(async (tx) => {
    await tx.job.update({ where: { id: jobId }, data: { state: "inWork", arrivedAt: shop.now } });
    await tx.step.updateMany({ where: { jobId, kind: "open" }, data: { state: "done" } });
  });
  const step = await shop.read.step.findFirstOrThrow({ where: { jobId, kind: "operation" } });
  return { ...made, jobId, step, frozen: storedQuote(row.frozen), grossMinor: row.grossMinor };
}

const pass = (
  shop: ShopHandle,
  step: { id: number; version: number },
  jets: Parameters<typeof passStep>[1]["jets"] = [],
) =>
  passStep(shop, { stepId: step.id, version: step.version, readings: [], checks: [], signatures: [], jets });

const ready = (shop: ShopHandle, jobId: number) =>
  shop.write(async (tx) => {
    await tx.step.updateMany({ where: { jobId, state: "todo" }, data: { state: "done" } });
    await tx.job.update({ where: { id: jobId }, data: { state: "ready", finishedAt: shop.now } });
    await tx.customer.updateMany({ data: { address: "9 Ridge Road\nSaltpan" } });
  });

describe("a jet whose size nobody knows", () => {
  it("stands at nothing on the quote, says what one may come to, and is asked about", async () => {
    for (const shop of [a, b]) {
      const { id } = await quoted(shop);
      const quote = await getQuote(shop, id, { margin: true });
      const line = quote?.draft?.price.lines.find((one) => one.kind === "part");
      // Cost 4.1735, 100 % markup (its band reaches to 10): 8.347 without tax, 9.1817 with 10 % GST in it.
      const each = shop === a ? "9.18" : "8,35";
      expect(line).toMatchObject({
        name: `Main jet, size settled when it is fitted: ${each} each, added then`,
        shownMinor: 0,
        costMinor: 0,
        unsettled: { setting: "mainJet", family: "Round main" },
      });
      expect(quote?.draft?.price.unpriced).toEqual([]);
      expect(quote?.draft?.price.marginBp).not.toBeNull();
      const asked = quote?.draft?.warnings.filter((one) => one.message.includes("which main jet is fitted"));
      expect(asked).toMatchObject([{ stops: false }]);
      expect(asked?.[0]?.remedy).toMatch(/record the settings as found/);
    }
  });

  it("names the range where the sizes differ in price", async () => {
    const { id } = await quoted(a);
    await a.write((tx) => tx.part.updateMany({ where: { code: "RM-160" }, data: { priceE4: 68_000 } }));
    await a.write((tx) => tx.part.updateMany({ where: { code: "RM-130" }, data: { priceE4: 123_400 } }));
    const quote = await getQuote(a, id, { margin: true });
    const line = quote?.draft?.price.lines.find((one) => one.kind === "part");
    expect(line?.name).toContain("6.80 to 12.34 each");
  });

  it("is asked for by the step that fits it, taken from stock there, and kept as a reading of the setting", async () => {
    const job = await atTheJet(a);
    const card = await getCard(a, job.jobId);
    const [jet] = card?.steps.find((one) => one.id === job.step.id)?.jets ?? [];
    expect(jet?.free.map((part) => part.code)).toEqual(["RM-142.5"]);
    await expect(pass(a, job.step)).rejects.toMatchObject({ fields: { "jets.0": expect.any(String) } });
    const typed = { at: 0, partId: null, size: 145 };
    await expect(pass(a, job.step, [{ ...typed, why: "" }])).rejects.toMatchObject({
      fields: { "jetWhys.0": expect.any(String) },
    });
    await expect(pass(a, job.step, [{ ...typed, size: 14_500, why: "Typed twice" }])).rejects.toMatchObject({
      fields: { "jetSizes.0": expect.any(String) },
    });
    const none = await a.read.part.findUniqueOrThrow({ where: { code: "RM-160" } });
    await expect(pass(a, job.step, [{ at: 0, partId: none.id, size: null, why: "" }])).rejects.toThrow(
      /not free/,
    );
    await pass(a, job.step, [{ at: 0, partId: job.jetId, size: null, why: "" }]);

    const part = await a.read.part.findUniqueOrThrow({ where: { id: job.jetId } });
    expect([part.onHandMilli, part.reservedMilli]).toEqual([2000, 0]);
    const move = await a.read.move.findFirstOrThrow({ where: { partId: job.jetId, kind: "use" } });
    expect([move.jobId, move.stepId, move.quantityMilli]).toEqual([job.jobId, job.step.id, -1000]);
    const hold = await a.read.holdPoint.findFirstOrThrow({
      where: { stepId: job.step.id, measures: "mainJet" },
      include: { readings: true },
    });
    expect(hold).toMatchObject({ name: "Main jet fitted", passed: true, readings: [{ value: 142.5 }] });
    const left = (await sheetsOfJob(a.read, { id: job.jobId, bikeId: job.bikeId })).fitted;
    expect(left.find((one) => one.setting === "mainJet")).toMatchObject({ value: 142.5, how: "measured" });
    expect(await b.read.move.count()).toBe(0);
  });

  it("is asked for on each carburettor, and two may take different ones", async () => {
    const job = await atTheJet(a, TWIN);
    expect(storedJets(job.step.unsettled)).toMatchObject([
      { carburettor: 1, quantityMilli: 1000 },
      { carburettor: 2, quantityMilli: 1000 },
    ]);
    await expect(
      pass(a, job.step, [{ at: 0, partId: job.jetId, size: null, why: "" }]),
    ).rejects.toMatchObject({ fields: { "jets.1": expect.any(String) } });
    await pass(a, job.step, [
      { at: 0, partId: job.jetId, size: null, why: "" },
      { at: 1, partId: null, size: 140, why: "The customer brought it." },
    ]);
    const left = (await sheetsOfJob(a.read, { id: job.jobId, bikeId: job.bikeId })).fitted;
    expect(
      left.filter((one) => one.setting === "mainJet").map(({ carburettor, value }) => [carburettor, value]),
    ).toEqual([
      [1, 142.5],
      [2, 140],
    ]);
  });

  it("is invoiced as the jet that was fitted, with the discount agreed, and never while it is open", async () => {
    for (const shop of [a, b]) {
      const job = await atTheJet(shop, KESTREL, 1_000);
      await ready(shop, job.jobId);
      for (const basis of ["fixed", "asWorked"] as const)
        await expect(draftInvoice(shop, { jobId: job.jobId, basis })).rejects.toThrow(
          `Step ${job.step.position}, “${job.step.name}”, does not say yet which main jet was fitted.`,
        );
      await shop.write(async (tx) => {
        await tx.step.update({ where: { id: job.step.id }, data: { state: "todo" } });
        await tx.job.update({ where: { id: job.jobId }, data: { state: "inWork" } });
      });
      await pass(shop, job.step, [{ at: 0, partId: job.jetId, size: null, why: "" }]);
      await ready(shop, job.jobId);
      const doc = storedInvoice(
        (
          await shop.read.invoice.findUniqueOrThrow({
            where: { id: await issuedInvoice(shop, job.jobId) },
          })
        ).frozen,
      );
      const part = doc.lines.find((line) => line.kind === "part");
      // 9.18 with tax in it or 8.35 without; the customer's 10 % off: 0.92 or 0.84 (0.918 and 0.835, half away from zero).
      const [price, off] = shop === a ? [918, 92] : [835, 84];
      expect(part).toMatchObject({ name: "Main jet 142.5", quantityMilli: 1000, shownMinor: price });
      const shown = doc.lines.reduce((sum, line) => sum + line.shownMinor, 0);
      const agreed = job.frozen.lines.reduce((sum, line) => sum + line.shownMinor, 0);
      expect(shown).toBe(agreed + price - off);
      expect(doc.lines.reduce((sum, line) => sum + line.netMinor, 0)).toBe(doc.netMinor);
      expect(doc.netMinor + doc.taxMinor).toBe(doc.grossMinor);
      expect(doc.lines.some((line) => line.unsettled)).toBe(false);
    }
  });

  it("is not billed where the step was skipped or the jet came from elsewhere", async () => {
    for (const [shop, skipped] of [
      [a, true],
      [b, false],
    ] as const) {
      const job = await atTheJet(shop);
      if (skipped)
        await shop.write((tx) =>
          tx.step.update({ where: { id: job.step.id }, data: { state: "skipped", reason: "Not wanted" } }),
        );
      else await pass(shop, job.step, [{ at: 0, partId: null, size: 140, why: "Was in already." }]);
      await ready(shop, job.jobId);
      const preview = await previewInvoice(shop, job.jobId);
      expect(preview?.fixed.doc?.lines.map((line) => line.kind)).not.toContain("part");
      expect(preview?.fixed.doc?.grossMinor).toBe(job.grossMinor);
    }
  });
});

describe("a jet after a bad ride", () => {
  it("is reserved from the drawer of the package, or asked for where the drawer has no such size", async () => {
    for (const [shop, toValue, kept] of [
      [a, 145, true],
      [b, 147.4, false],
    ] as const) {
      const job = await atTheJet(shop);
      await pass(shop, job.step, [{ at: 0, partId: null, size: 142.5, why: "Was in already." }]);
      const correctionId = await shop.write(async (tx) => {
        await tx.step.updateMany({ where: { jobId: job.jobId, kind: "close" }, data: { state: "done" } });
        const ride = await tx.testRide.create({ data: { jobId: job.jobId, at: shop.now, note: "lean" } });
        const made = await tx.correction.create({
          data: { rideId: ride.id, rank: 1, setting: "mainJet", fromValue: 142.5, toValue, because: [] },
        });
        return made.id;
      });
      const { version } = await jobNow(shop, job.jobId);
      await acceptCorrection(shop, { correctionId, version, lambda: null });
      const step = await shop.read.step.findFirstOrThrow({ where: { key: "correct-mainJet" } });
      const reserved = await shop.read.reservation.findMany({
        where: { stepId: step.id },
        select: { wantedMilli: true, part: { select: { code: true } } },
      });
      expect(reserved).toEqual(kept ? [{ wantedMilli: 1000, part: { code: "RM-145" } }] : []);
      expect(storedJets(step.unsettled)).toEqual(
        kept
          ? []
          : [
              {
                setting: "mainJet",
                family: "Round main",
                carburettor: null,
                quantityMilli: 1000,
                quote: null,
              },
            ],
      );
    }
  });
});
