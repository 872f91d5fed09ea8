import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { handoverPaper } from "@/app/_documents/handoverPaper";
import { buildDemo, demoSignIns } from "@/demo/build";
import { HOYDE } from "@/demo/packages/hoyde";
import { JET_RESET } from "@/demo/packages/jetReset";
import { NEEDLE_WORK } from "@/demo/packages/needleWork";
import { OPEN_ROAD } from "@/demo/packages/openRoad";
import { TWIN_BALANCE } from "@/demo/packages/twinBalance";
import { reconfigure } from "@/lib/configuration/configuration";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { storedQuote } from "@/lib/data/documents/quote";
import { listDays } from "@/lib/data/endOfDay/get";
import { daysNotClosed } from "@/lib/data/endOfDay/open";
import { packageEffects } from "@/lib/data/figures/effects";
import { recallLike } from "@/lib/data/figures/recall";
import { recipeLacks } from "@/lib/data/packages/lacks";
import { tryPackage } from "@/lib/data/quotes/tryPackage";
import { getToday } from "@/lib/data/today/today";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { handoverPdf } from "@/lib/documents/handover";
import { invoicePdf } from "@/lib/documents/invoice";
import { quotePdf } from "@/lib/documents/quote";
import { letterHtml } from "@/lib/domain/letters/html";
import { checkRecipe } from "@/lib/domain/packages/check";
import { dayOf, weekdayOf } from "@/lib/domain/schedule/localTime";
import { handleFor } from "@/lib/gate/handle";
import { folderStore } from "@/lib/outside/fileStore";
import { RecipeSchema } from "@/lib/schemas/recipe";
import { catalogueEnglish, wordsOfHtml } from "../support/letterWords";
import { freshDatabase } from "../support/ownDatabase";
import { pdfText } from "../support/pdfText";

/** A Wednesday, 10:54 on the clock of the southern shop. */
const NOW = new Date("2026-11-25T00:24:00Z");
/** On a server every statement is a round trip, and both shops are built twice. */
const PATIENCE = postgresUrl() ? 900_000 : 300_000;
const folders: string[] = [];

async function built(): Promise<void> {
  await closeShops();
  await closeDirectory();
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-demo-"));
  folders.push(folder);
  reconfigure({ DATA_DIR: folder, DEMO_PASSWORD: "bowl-brass-jet-1234" });
  await freshDatabase();
  await migrateAll(() => undefined);
  const began = performance.now();
  await buildDemo(NOW, null);
  console.log(`Both demo shops built in ${((performance.now() - began) / 1000).toFixed(1)} s.`);
}

async function shopCalled(slug: string): Promise<ShopHandle> {
  const place = await directory().read.shop.findFirstOrThrow({
    where: { slug },
    select: { slug: true, database: true, server: true },
  });
  return handleFor(place, { personId: "looker", name: "Looker", role: "owner", staffId: null }, NOW);
}

/** Figures that would differ if anything had gone another way. */
async function figuresOf(shop: ShopHandle) {
  const { read } = shop;
  const [jobs, quotes, invoices, parts, minutes, moves, readings, corrections, mails, audits, values] =
    await Promise.all([
      read.job.groupBy({ by: ["state"], _count: true, _sum: { minutes: true }, orderBy: { state: "asc" } }),
      read.quote.groupBy({
        by: ["state"],
        _count: true,
        _sum: { grossMinor: true },
        orderBy: { state: "asc" },
      }),
      read.invoice.groupBy({
        by: ["kind"],
        _count: true,
        _sum: { grossMinor: true, paidMinor: true, prepaidMinor: true },
        orderBy: { kind: "asc" },
      }),
      read.part.aggregate({
        _count: true,
        _sum: { onHandMilli: true, reservedMilli: true, onOrderMilli: true },
      }),
      read.timeEntry.findMany({ select: { startedAt: true, endedAt: true }, orderBy: { id: "asc" } }),
      read.move.aggregate({ _count: true, _sum: { quantityMilli: true } }),
      // Not their sums: a server adds fractions in the order that its rows happen to lie in.
      read.reading.findMany({ select: { value: true }, orderBy: { id: "asc" } }),
      read.correction.findMany({ select: { toValue: true }, orderBy: { id: "asc" } }),
      read.mail.count(),
      read.auditEntry.groupBy({
        by: ["act", "noun"],
        _count: true,
        orderBy: [{ act: "asc" }, { noun: "asc" }],
      }),
      read.settingValue.findMany({ select: { value: true }, orderBy: { id: "asc" } }),
    ]);
  return { jobs, quotes, invoices, parts, minutes, moves, readings, corrections, mails, audits, values };
}

const SLUGS = ["saltpan", "fjellrev"] as const;
const figures: Awaited<ReturnType<typeof figuresOf>>[][] = [];

beforeAll(async () => {
  for (const _ of [1, 2]) {
    await built();
    figures.push(await Promise.all(SLUGS.map(async (slug) => figuresOf(await shopCalled(slug)))));
  }
}, PATIENCE);

afterAll(async () => {
  await closeShops();
  await closeDirectory();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

describe("the demo packages", () => {
  it.each([
    ["open-road breathing", OPEN_ROAD],
    ["jet and screw reset", JET_RESET],
    ["twin balance and jets", TWIN_BALANCE],
    ["høydejustering", HOYDE],
    ["needle eased and shimmed", NEEDLE_WORK],
  ])("hold no contradiction: %s", (_name, recipe) => {
    expect(checkRecipe(recipe)).toEqual([]);
    expect(RecipeSchema.parse(recipe)).toEqual(recipe);
  });
});

describe("the demo shops", () => {
  it("have everything that their packages name, and quote each of them on a bike of the model it is for", async () => {
    const suited = [
      ["saltpan", "OPEN", "Drover 580"],
      ["saltpan", "RESET", "Trail 400"],
      ["saltpan", "TWIN", "Twin 750"],
      ["fjellrev", "HOYDE", ""],
    ] as const;
    for (const [slug, code, model] of suited) {
      const shop = await shopCalled(slug);
      const { id } = await shop.read.package.findUniqueOrThrow({ where: { code } });
      const card = await shop.read.modelCard.findFirstOrThrow({
        where: { model: { contains: model } },
        orderBy: { id: "asc" },
      });
      const trial = await tryPackage(shop, { id, cardId: card.id, ticks: null });
      const recipe = trial?.package.shown?.recipe;
      if (!trial?.view || !recipe) throw new Error(`${code} cannot be tried on a ${model}.`);
      expect(await recipeLacks(shop, recipe), code).toEqual([]);
      expect([trial.view.sendable, trial.view.choice.valid], code).toEqual([true, true]);
      const steps = trial.view.plan.steps;
      for (const list of ["holdPoints", "cautions", "checks", "tools"] as const)
        expect(
          steps.flatMap((step): readonly unknown[] => step[list]).length,
          `${code} ${list}`,
        ).toBeGreaterThan(0);
    }
  });

  it("come out the same on the same day", () => {
    expect(figures[0]).toEqual(figures[1]);
    expect(figures[0]?.[0]?.minutes.length).toBeGreaterThan(100);
  });

  it("are two, with people who can sign in", async () => {
    const shops = await directory().read.shop.findMany({
      select: { slug: true, memberships: { select: { role: true } } },
      orderBy: { slug: "asc" },
    });
    expect(shops.map((shop) => [shop.slug, shop.memberships.map((one) => one.role).sort()])).toEqual([
      ["fjellrev", ["owner"]],
      ["saltpan", ["books", "desk", "owner", "tuner"]],
    ]);
    expect((await demoSignIns()).join(" ")).toContain("maren@saltpan.example");
  });

  it("have as many customers and bikes as a small workshop knows", async () => {
    const [saltpan, fjellrev] = await Promise.all(SLUGS.map(shopCalled));
    expect(await saltpan?.read.customer.count()).toBe(35);
    expect(await saltpan?.read.bike.count()).toBe(45);
    expect(await saltpan?.read.bike.count({ where: { sheets: { none: { kind: "asFound" } } } })).toBe(0);
    expect(await fjellrev?.read.customer.count()).toBe(10);
    expect(await fjellrev?.read.bike.count()).toBe(12);
  });

  it("have a bike whose needle was eased, and corrected by one shim after the ride", async () => {
    const { read } = await shopCalled("saltpan");
    const { bikeId } = await read.fittedPart.findFirstOrThrow({
      where: { kind: "needle", state: "made", onCard: "" },
      orderBy: { id: "desc" },
    });
    const [left, made, target, found] = await read.fittedPart.findMany({
      where: { bikeId, kind: "needle" },
      orderBy: { id: "desc" },
      take: 4,
    });
    expect([left, made, target, found].map((n) => n?.state)).toEqual(["left", "made", "target", "found"]);
    expect(left?.facts).toEqual(made?.facts);
    const tried = await read.correction.findFirstOrThrow({
      where: { setting: "needleShimBelowMm", acceptedAt: { not: null } },
    });
    expect(tried.toValue - tried.fromValue).toBeCloseTo(0.25, 9);
    const sheet = await read.settingSheet.findUniqueOrThrow({
      where: { id: left?.sheetId ?? 0 },
      include: { values: true },
    });
    expect(sheet.kind).toBe("asLeft");
    expect(sheet.values.find((v) => v.setting === "needleShimBelowMm")?.value).toBe(tried.toValue);
    expect(sheet.values.some((v) => v.setting === "clipPosition")).toBe(false);
    expect(await problemsOf(await shopCalled("saltpan"))).toEqual([]);
  });

  it("tell on a quote the last five like its bike, each number traced to its bike by a plain recount", async () => {
    const shop = await shopCalled("saltpan");
    const drafts = await shop.read.quote.findMany({
      where: { state: "draft" },
      select: { bike: { select: { id: true, modelCardId: true } } },
      orderBy: { id: "asc" },
    });
    const sheets = await shop.read.settingSheet.findMany({
      where: { kind: "asLeft", jobId: { not: null } },
      select: {
        bikeId: true,
        bike: { select: { modelCardId: true } },
        values: { select: { carburettor: true, setting: true, value: true } },
        job: { select: { steps: { select: { kind: true, state: true, makes: true } } } },
      },
      orderBy: { id: "desc" },
    });
    let told = 0;
    for (const { bike } of drafts)
      for (const changed of [undefined, "mainJet"] as const) {
        if (!bike) continue;
        const like = sheets.filter(
          (sheet) =>
            sheet.bikeId !== bike.id &&
            sheet.bike.modelCardId === bike.modelCardId &&
            (!changed ||
              sheet.job?.steps.some(
                (step) =>
                  step.kind === "operation" &&
                  step.state === "done" &&
                  (step.makes as string[]).includes(changed),
              )),
        );
        const last = [...new Set(like.map((sheet) => sheet.bikeId))]
          .slice(0, 5)
          .flatMap((id) => like.find((sheet) => sheet.bikeId === id) ?? []);
        const recall = await recallLike(shop, bike.id, changed && { changed });
        expect(recall.bikes.map((one) => one.bikeId)).toEqual(last.map((sheet) => sheet.bikeId));
        for (const [at, sheet] of last.entries())
          for (const { setting, value } of recall.bikes[at]?.values ?? [])
            expect(sheet.values).toContainEqual({ carburettor: 1, setting, value });
        const jets = last.flatMap((sheet) =>
          sheet.values
            .filter((one) => one.carburettor === 1 && one.setting === "mainJet")
            .map((one) => one.value),
        );
        expect(recall.spreads.find((one) => one.setting === "mainJet")?.count ?? 0).toBe(jets.length);
        if (jets.length > 0)
          expect(recall.spreads.find((one) => one.setting === "mainJet")).toMatchObject({
            low: Math.min(...jets),
            high: Math.max(...jets),
          });
        if (last.length === 5) told++;
      }
    expect(told).toBeGreaterThan(1);
  });

  it("say of a package what it did on their bikes, as a plain recount of its jobs does", async () => {
    const shop = await shopCalled("saltpan");
    const open = await shop.read.package.findUniqueOrThrow({ where: { code: "OPEN" }, select: { id: true } });
    const read = await shop.read.effect.findMany({
      where: { kind: "noise" },
      select: { bikeId: true, jobId: true, side: true, value: true },
      orderBy: { id: "asc" },
    });
    const changes = new Map<number, number>();
    for (const after of read.filter((one) => one.side === "after")) {
      const before = read.find((one) => one.side === "before" && one.jobId === after.jobId);
      changes.set(after.bikeId, after.value - (before?.value ?? 0));
    }
    const sorted = [...changes.values()].sort((a, b) => a - b);
    expect(sorted.length).toBeGreaterThan(4);
    const noise = (await packageEffects(shop, open.id)).find((one) => one.kind === "noise");
    expect(noise?.bikes).toBe(sorted.length);
    expect([noise?.low, noise?.high]).toEqual([sorted[0], sorted.at(-1)]);
    expect(sorted.filter((one) => one < (noise?.median ?? 0)).length).toBeLessThanOrEqual(sorted.length / 2);
    for (const one of noise?.counted ?? [])
      expect(one.difference).toBeCloseTo(changes.get(one.bikeId) ?? 0, 9);
  });

  it("have closed days that say what was over or short, and none that waits to be closed", async () => {
    const shop = await shopCalled("saltpan");
    const { rows } = await listDays(shop);
    expect(rows.map((row) => row.differenceMinor)).toEqual([-100, 0]);
    expect(await daysNotClosed(shop, "2026-11-25")).toEqual([]);
    expect((await listDays(await shopCalled("fjellrev"))).rows).toEqual([]);
  });

  it("have a job in every state, one stopped, one short of parts and time running", async () => {
    const shop = await shopCalled("saltpan");
    const states = await shop.read.job.groupBy({ by: ["state"], _count: true, orderBy: { state: "asc" } });
    expect(states.map((row) => row.state).sort()).toEqual([
      "booked",
      "cancelled",
      "closed",
      "inWork",
      "invoiced",
      "ready",
      "ride",
      "waiting",
    ]);
    const today = await getToday(shop, { quotes: true, invoices: true, stock: true });
    expect(today.day).toBe("2026-11-25");
    expect(new Set(today.bookings.map((one) => one.bayId)).size).toBe(2);
    expect(today.stopped[0]?.stopped).toContain("Needle seat height 2.85");
    expect(today.short.flatMap((job) => job.parts.map((part) => part.code))).toContain("PK-45");
    expect(today.running.map((entry) => entry.staff).sort()).toEqual(["Jory Quill", "Maren Tolliver"]);
    for (const list of [
      today.arrivals,
      today.toRide,
      today.ready,
      today.unbooked,
      today.findings,
      today.quotes,
      today.invoices,
      today.followUps,
      today.parts,
    ])
      expect(list.length).toBeGreaterThan(0);
  });

  it("have quotes of every answer, a credit note, deposits, a variation, accepted corrections and done follow-ups", async () => {
    const { read } = await shopCalled("saltpan");
    for (const state of ["draft", "sent", "accepted", "declined"] as const)
      expect(await read.quote.count({ where: { state } })).toBeGreaterThan(1);
    expect(await read.quote.count({ where: { state: "sent", validUntil: { lt: "2026-11-25" } } })).toBe(2);
    expect(await read.invoice.count({ where: { kind: "creditNote" } })).toBe(1);
    expect(await read.payment.count({ where: { kind: "deposit" } })).toBeGreaterThan(4);
    expect(await read.correction.count({ where: { acceptedAt: { not: null } } })).toBeGreaterThan(4);
    expect(
      await read.quote.count({ where: { state: "accepted", variationOfId: { not: null } } }),
    ).toBeGreaterThan(0);
    expect(await read.followUp.count({ where: { state: "done" } })).toBeGreaterThan(2);
  });

  it.each(SLUGS)("keep their ledgers: %s", async (slug) => {
    const shop = await shopCalled(slug);
    expect(await problemsOf(shop, folderStore(shop.files))).toEqual([]);
    const [parts, moves, held] = await Promise.all([
      shop.read.part.findMany({
        select: { id: true, code: true, onHandMilli: true, reservedMilli: true },
        orderBy: { id: "asc" },
      }),
      shop.read.move.groupBy({ by: ["partId"], _sum: { quantityMilli: true }, orderBy: { partId: "asc" } }),
      shop.read.reservation.groupBy({
        by: ["partId"],
        where: { state: "held" },
        _sum: { reservedMilli: true },
        orderBy: { partId: "asc" },
      }),
    ]);
    const moved = new Map(moves.map((row) => [row.partId, row._sum.quantityMilli ?? 0]));
    const reserved = new Map(held.map((row) => [row.partId, row._sum.reservedMilli ?? 0]));
    expect(
      parts.filter((part) => part.onHandMilli !== (moved.get(part.id) ?? 0)).map((part) => part.code),
    ).toEqual([]);
    expect(
      parts.filter((part) => part.reservedMilli !== (reserved.get(part.id) ?? 0)).map((part) => part.code),
    ).toEqual([]);
    expect(
      parts
        .filter((part) => part.reservedMilli > part.onHandMilli || part.onHandMilli < 0)
        .map((part) => part.code),
    ).toEqual([]);
    const numbers = await shop.read.invoice.findMany({
      where: { kind: "invoice", state: "issued" },
      select: { number: true },
      orderBy: { number: "asc" },
    });
    expect(numbers.map((row) => row.number)).toEqual(numbers.map((_, at) => 2001 + at));
    expect(numbers.length).toBeGreaterThan(3);
  });

  it.each([
    ["saltpan", "Australia/Adelaide"],
    ["fjellrev", "Europe/Oslo"],
  ])("book on working days only and nothing twice: %s", async (slug, zone) => {
    const { read } = await shopCalled(slug);
    const bookings = await read.booking.findMany({
      where: { state: { in: ["held", "done"] } },
      orderBy: { startsAt: "asc" },
    });
    expect(bookings.filter((one) => weekdayOf(dayOf(one.startsAt.getTime(), zone)) > 5)).toEqual([]);
    const overlaps = bookings.flatMap((one, at) =>
      bookings
        .slice(at + 1)
        .filter(
          (other) =>
            other.startsAt < one.endsAt && (other.bayId === one.bayId || other.staffId === one.staffId),
        )
        .map((other) => [one.id, other.id]),
    );
    expect(overlaps).toEqual([]);
    expect(bookings.length).toBeGreaterThan(5);
  });

  it("never let something happen that has not come yet", async () => {
    for (const slug of SLUGS) {
      const { read } = await shopCalled(slug);
      expect(await read.auditEntry.count({ where: { at: { gt: NOW } } })).toBe(0);
      expect(await read.timeEntry.count({ where: { startedAt: { gt: NOW } } })).toBe(0);
    }
  });

  it("write no English of the catalogue to anybody in the north: letters, their twins, quotes, invoices and hand-overs", async () => {
    const shop = await shopCalled("fjellrev");
    const { read } = shop;
    const said: { what: string; text: string }[] = [];
    const mails = await read.mail.findMany({ where: { letter: { not: "" } }, orderBy: { id: "asc" } });
    for (const mail of mails)
      said.push({
        what: `letter ${mail.letter} ${mail.id}`,
        text: `${mail.subject}\n${mail.text}\n${wordsOfHtml(letterHtml(mail.text, mail.language)).join(" ")}`,
      });
    const revisions = await read.quoteRevision.findMany({
      where: { frozenAt: { not: null } },
      select: { frozen: true, quote: { select: { number: true } } },
      orderBy: { id: "asc" },
      take: 4,
    });
    for (const { frozen, quote } of revisions)
      said.push({
        what: `quote ${quote.number}`,
        text: await pdfText(await quotePdf(storedQuote(frozen), "NO")),
      });
    const invoices = await read.invoice.findMany({
      where: { state: "issued" },
      select: { frozen: true, written: true },
      orderBy: { id: "asc" },
      take: 3,
    });
    for (const { frozen, written } of invoices)
      said.push({
        what: `invoice ${written}`,
        text: await pdfText(await invoicePdf(storedInvoice(frozen))),
      });
    const jobs = await read.job.findMany({
      where: { finishedAt: { not: null } },
      select: { id: true, number: true },
      orderBy: { id: "asc" },
      take: 3,
    });
    for (const { id, number } of jobs) {
      const printed = await handoverPaper(shop, id);
      if (!printed) continue;
      said.push({ what: `hand-over of job ${number}`, text: await pdfText(await handoverPdf(printed)) });
    }
    expect(mails.length).toBeGreaterThan(10);
    expect([revisions.length, invoices.length, jobs.length]).toEqual([4, 3, 3]);
    expect(said.filter(({ what }) => what.startsWith("hand-over"))).toHaveLength(3);
    const wrong = said.flatMap(({ what, text }) =>
      catalogueEnglish(text).map((piece) => `${what}: ${piece}`),
    );
    expect(wrong).toEqual([]);
    // The check finds English where there is some.
    const southern = await (await shopCalled("saltpan")).read.mail.findFirstOrThrow({
      where: { letter: "quote" },
    });
    expect(catalogueEnglish(southern.text).length).toBeGreaterThan(2);
  });

  it("keep prices with tax in one shop and without in the other", async () => {
    const [saltpan, fjellrev] = await Promise.all(SLUGS.map(shopCalled));
    const terms = (shop: ShopHandle | undefined) =>
      shop?.read.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, pricesIncludeTax: true, taxNumber: true, altitudeM: true },
      });
    expect(await terms(saltpan)).toEqual({
      currency: "AUD",
      pricesIncludeTax: true,
      taxNumber: "51 824 753 556",
      altitudeM: 410,
    });
    expect(await terms(fjellrev)).toMatchObject({ currency: "NOK", pricesIncludeTax: false, altitudeM: 640 });
  });
});
