import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { storedQuote } from "@/lib/data/documents/quote";
import { jobIn } from "@/lib/data/jobs/states";
import { getPackage } from "@/lib/data/packages/get";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { keepAsPackage } from "@/lib/data/quotes/keepWork";
import { sendQuote } from "@/lib/data/quotes/send";
import { shownQuote } from "@/lib/data/quotes/shown";
import { addLine, discountLine, offerExtras } from "@/lib/data/quotes/terms";
import { addPackage, moveWork, removeWork, writeParts, writeText, writeWork } from "@/lib/data/quotes/works";
import { chooseOptions, createQuote, retitleQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { chainWork, sentChain, stockChain, workForm } from "../support/chain";
import { makeBike, ORIGIN, readyToQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const draftOf = async (shop: ShopHandle, id: number) => {
  const quote = await getQuote(shop, id, { margin: true });
  if (!quote?.draft) throw new Error("The quote is a draft here.");
  return { ...quote, draft: quote.draft };
};

describe("a quote without a package", () => {
  it("is priced, sent and accepted: 48 minutes at 100.00 an hour and a chain", async () => {
    const { a, b } = await twoShops();
    await stockChain(a, 1);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const sent = await sentChain(a, bikeId);
    const frozen = storedQuote(
      (await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } })).frozen,
    );
    expect(frozen.title).toBe("Chain renewed");
    expect(frozen.package).toBeUndefined();
    expect(frozen.works).toEqual([{ key: "", kind: "written", name: "Chain renewed", text: "" }]);
    // 48 min at 100.00 an hour is 80.00, with the tax in it; nothing is opened.
    expect(frozen.lines.map((l) => [l.kind, l.work, l.quantityMilli])).toEqual([
      ["labour", "", 800],
      ["part", "", 1000],
    ]);
    expect(frozen.lines[0]?.shownMinor).toBe(8_000);
    expect(frozen.acknowledgements).toEqual([]);
    expect(frozen.cautions).toEqual(["Keep fingers off a moving chain."]);

    const made = await acceptQuote(a, { ...yes(sent), acknowledgements: [] });
    const job = await a.read.job.findUniqueOrThrow({
      where: { id: made.jobId },
      include: { steps: true, reservations: { include: { part: true } }, sheets: true },
    });
    expect(job.steps.map((s) => [s.kind, s.name, s.minutes])).toEqual([["operation", "Chain renewed", 48]]);
    expect(job.reservations.map((r) => [r.part.code, r.reservedMilli, r.stepId])).toEqual([
      ["CH-520", 1000, job.steps[0]?.id],
    ]);
    expect(job.sheets).toEqual([]);
    expect(await b.read.quoteWork.count()).toBe(0);
  });

  it("is not sent while nothing is on it, and its title follows its first work until it has one of its own", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const id = await createQuote(a, { bikeId });
    await expect(sendQuote(a, { id, version: 1, origin: ORIGIN })).rejects.toThrow("nothing is chosen");
    await writeText(a, { id, version: 1, isNew: "yes", name: "As we spoke", text: "On the phone." });
    await expect(sendQuote(a, { id, version: 2, origin: ORIGIN })).rejects.toThrow("nothing is chosen");
    expect((await draftOf(a, id)).title).toBe("New quote");
    await stockChain(a);
    await writeWork(a, chainWork(id, 2));
    expect((await draftOf(a, id)).title).toBe("Chain renewed");
    await retitleQuote(a, { id, version: 3, title: "Spring service" });
    await writeParts(a, {
      id,
      version: 4,
      isNew: "yes",
      name: "",
      parts: [{ kind: "part", code: "CH-520", quantityMilli: 1000 }],
    });
    const quote = await draftOf(a, id);
    expect([quote.title, quote.works.map((w) => w.key)]).toEqual(["Spring service", ["", "w2", "w3"]]);
    expect(quote.draft.sendable).toBe(true);
  });

  it("takes a line by hand of so many at so much each", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const id = await createQuote(a, { bikeId });
    await addLine(a, {
      id,
      version: 1,
      kind: "text",
      name: "Brake hose, by the metre",
      quantity: 2_500,
      unit: "m",
      price: "12.50",
      cost: "5",
    });
    const { draft } = await draftOf(a, id);
    // 2.5 m at 12.50 are 31.25, and cost 12.50.
    expect(draft.price.lines.map((l) => [l.quantityMilli, l.unit, l.shownMinor, l.costMinor])).toEqual([
      [2_500, "m", 3_125, 1_250],
    ]);
    expect(draft.sendable).toBe(true);
  });
});

describe("several works of one quote", () => {
  it("open once what they share, keep their lines apart, and go together through sending and the yes", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    await stockChain(a);
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const alone = (await draftOf(a, id)).draft;
    await writeWork(a, chainWork(id, 1));
    await writeWork(
      a,
      workForm({
        id: String(id),
        version: "2",
        name: "Tap cleaned",
        steps: { 0: { minutes: "15", grade: "workshop" } },
        accesses: { 0: { name: "seat and tank OFF", open: "30", close: "30" } },
        outside: { 0: { name: "Tank sealed", price: "80", cost: "60" } },
      }),
    );
    const { draft, works } = await draftOf(a, id);
    expect(works.map((w) => [w.key, w.name])).toEqual([
      ["", "Open-road breathing"],
      ["w2", "Chain renewed"],
      ["w3", "Tap cleaned"],
    ]);
    // The tank is off for the package anyhow: 48 + 15 minutes more, and its 21 minutes are saved.
    expect(draft.plan.minutes).toBe(alone.plan.minutes + 63);
    expect(draft.savedMinutes).toBe(alone.savedMinutes + 21);
    const of = (work: string) => draft.price.lines.filter((l) => l.work === work).map((l) => l.key);
    expect(of("")).toEqual([expect.stringContaining("work-"), ...of("").slice(1)]);
    expect(of("w2")).toEqual(["w2:work-workshop", "w2:CH-520"]);
    expect(of("w3")).toEqual(["w3:work-workshop", "w3:outside-1"]);
    // The chain: 60.00 and 35 % more, with 10 % tax.
    expect(draft.price.grossMinor - alone.price.grossMinor).toBe(8_000 + 2_500 + 8_910 + 8_000);

    const sent = await sendQuote(a, { id, version: 3, origin: ORIGIN });
    const shown = await shownQuote(a, sent.revisionId);
    expect(shown?.printed.works?.map((w) => w.name)).toEqual(works.map((w) => w.name));
    expect(shown?.printed.options.map((o) => o.work)).toEqual(["", "", "", "w2", "w3"]);
    const made = await acceptQuote(a, {
      ...yes({ id, revisionId: sent.revisionId, hash: shown?.hash ?? "", token: "" }),
    });
    const steps = await a.read.step.findMany({ where: { jobId: made.jobId }, orderBy: { position: "asc" } });
    expect(steps.filter((s) => s.access === "Seat and tank off").map((s) => s.kind)).toEqual([
      "open",
      "close",
    ]);
    expect(steps.at(-1)?.kind).toBe("ride");
    expect(steps.map((s) => s.key)).toContain("w3:step-1");
  });

  it("are moved and taken off, with the ticks, discounts and extras that were theirs", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    await stockChain(a);
    const id = await createQuote(a, { bikeId: ready.bikeId });
    await writeWork(a, chainWork(id, 1));
    await addPackage(a, { id, version: 2, packageId: ready.packageId });
    await addPackage(a, { id, version: 3, packageId: ready.packageId });
    expect((await draftOf(a, id)).works.map((w) => w.key)).toEqual(["", "w2", "w3"]);
    await discountLine(a, { id, version: 4, line: "w2:BF-20", percent: 1000, why: "regular" });
    await discountLine(a, { id, version: 5, line: "CH-520", percent: 500, why: "" });
    await offerExtras(a, { id, version: 6, extras: ["w2:needle", "w3:check"] });
    await moveWork(a, { id, version: 7, work: "w3", by: "up" });
    await moveWork(a, { id, version: 8, work: "w3", by: "up" });
    await moveWork(a, { id, version: 9, work: "w3", by: "up" });
    expect((await draftOf(a, id)).works.map((w) => w.key)).toEqual(["w3", "", "w2"]);
    await removeWork(a, { id, version: 10, work: "w2" });
    const { draft, works } = await draftOf(a, id);
    expect(works.map((w) => w.key)).toEqual(["w3", ""]);
    expect(draft.choice.chosen.filter((key) => key.startsWith("w2:"))).toEqual([]);
    expect(draft.agreed.lineDiscounts.map((d) => d.line)).toEqual(["CH-520"]);
    expect(draft.agreed.extras).toEqual(["w3:check"]);
    await expect(removeWork(a, { id, version: 11, work: "w2" })).rejects.toThrow("not on the quote any more");
    await removeWork(a, { id, version: 11, work: "" });
    const left = await draftOf(a, id);
    expect(left.works.map((w) => w.key)).toEqual(["w3"]);
    expect(left.draft.agreed.lineDiscounts).toEqual([]);
    expect(left.draft.choice.chosen).toEqual(["w3:opening", "w3:main", "w3:breather"]);
  });

  it("of the same package twice settle one jet, taken once", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    await addPackage(a, { id, version: 1, packageId: ready.packageId });
    const { draft } = await draftOf(a, id);
    expect(draft.parts.filter((p) => p.setting === "mainJet")).toHaveLength(1);
    expect(draft.parts.filter((p) => p.code === "BF-20")).toHaveLength(2);
  });

  it("that set one setting differently are a named clash, which keeps the quote from being sent", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const id = await createQuote(a, { bikeId });
    for (const [version, value] of [
      [1, "1300"],
      [2, "1500"],
    ] as const)
      await writeWork(
        a,
        workForm({
          id: String(id),
          version: String(version),
          name: `Idle at ${value}`,
          steps: { 0: { minutes: "5", grade: "workshop" } },
          changes: { 0: { setting: "idleSpeedRpm", change: "set", value } },
        }),
      );
    const { draft } = await draftOf(a, id);
    expect(draft.sendable).toBe(false);
    expect(draft.warnings.filter((w) => w.stops).map((w) => w.message)).toEqual([
      "“Idle at 1300” and “Idle at 1500” put idleSpeedRpm to different values.",
    ]);
  });

  it("stay as they were sent; a revision begins with the same list, to be changed", async () => {
    const { a } = await twoShops();
    await stockChain(a);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const { id, revisionId } = await sentChain(a, bikeId);
    await expect(removeWork(a, { id, version: 3, work: "" })).rejects.toThrow("is sent, not a draft");
    for (const change of [
      a.write((tx) => tx.quoteWork.updateMany({ where: { revisionId }, data: { key: "x" } })),
      a.write((tx) => tx.quoteWork.deleteMany({ where: { revisionId } })),
    ])
      await expect(change).rejects.toThrow(/frozen revision never changes|constraint|trigger/i);
    await reviseQuote(a, { id, version: 3 });
    const before = await draftOf(a, id);
    expect(before.works.map((w) => [w.key, w.name])).toEqual([["", "Chain renewed"]]);
    await writeWork(a, {
      ...chainWork(id, before.version),
      isNew: "no",
      work: "",
      name: "Chain and sprockets",
    });
    expect((await draftOf(a, id)).works.map((w) => w.name)).toEqual(["Chain and sprockets"]);
    expect((await a.read.quoteWork.findFirst({ where: { revisionId } }))?.data).toMatchObject({
      name: "Chain renewed",
    });
  });

  it("written by hand can be kept as a package, whose draft prices as the work did", async () => {
    const { a, b } = await twoShops();
    await stockChain(a);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const id = await createQuote(a, { bikeId });
    await writeWork(a, chainWork(id, 1));
    const packageId = await keepAsPackage(a, { id, work: "", code: "CHAIN" });
    const kept = await getPackage(a, packageId);
    expect(kept).toMatchObject({ code: "CHAIN", name: "Chain renewed" });
    expect(kept?.shown).toMatchObject({ state: "draft" });
    expect(kept?.shown?.recipe.operations.map((o) => [o.name, o.minutes])).toEqual([["Chain renewed", 48]]);
    expect(await b.read.package.count()).toBe(0);
  });

  it("are refused beyond what one quote takes, and nothing is changed", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const id = await createQuote(a, { bikeId });
    for (let n = 1; n <= 20; n++)
      await writeText(a, { id, version: n, isNew: "yes", name: `Word ${n}`, text: "" });
    await expect(writeText(a, { id, version: 21, isNew: "yes", name: "One more", text: "" })).rejects.toThrow(
      "takes 20 works",
    );
    expect((await draftOf(a, id)).works).toHaveLength(20);
  });

  it("ask for no ride where no setting changes, also as extra work on a job", async () => {
    const { a } = await twoShops();
    await stockChain(a, 2);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const first = await acceptQuote(a, { ...yes(await sentChain(a, bikeId)), acknowledgements: [] });
    const id = await createQuote(a, { bikeId, variationOfId: first.jobId, title: "Sprocket too" });
    await writeWork(a, { ...chainWork(id, 1), name: "Sprocket renewed" });
    const sent = await sendQuote(a, { id, version: 2, origin: ORIGIN });
    const shown = await shownQuote(a, sent.revisionId);
    expect(shown?.printed.title).toBe("Sprocket too");
    await acceptQuote(a, {
      ...yes({ id, revisionId: sent.revisionId, hash: shown?.hash ?? "", token: "" }),
      acknowledgements: [],
    });
    const steps = await a.read.step.findMany({ where: { jobId: first.jobId }, orderBy: { position: "asc" } });
    expect(steps.map((s) => [s.kind, s.name])).toEqual([
      ["operation", "Chain renewed"],
      ["operation", "Sprocket renewed"],
    ]);
    expect(await a.write((tx) => jobIn(tx, first.jobId))).toMatchObject({ state: "waiting" });
  });

  it("are ticked each by itself", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    await addPackage(a, { id, version: 1, packageId: ready.packageId });
    await chooseOptions(a, {
      id,
      version: 2,
      choices: ["opening", "main", "w2:snorkel"],
      touched: "w2:snorkel",
    });
    expect((await draftOf(a, id)).draft.choice.chosen).toEqual(["opening", "main", "w2:snorkel"]);
  });
});
