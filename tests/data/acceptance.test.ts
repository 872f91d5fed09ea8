import { describe, expect, it } from "vitest";
import { acceptForCustomer, acceptQuote } from "@/lib/data/acceptance/accept";
import { storedQuote } from "@/lib/data/documents/quote";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { makeBike, ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

describe("accepting a quote", () => {
  it("makes the job with its steps, hold points, target settings and reserved parts, with the proof of the yes", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const sent = await sentQuote(a, ready);
    const made = await acceptQuote(a, yes(sent));
    expect(made).toMatchObject({ jobNumber: "601", short: [], again: false });
    const revision = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    const frozen = storedQuote(revision.frozen);

    const job = await a.read.job.findUniqueOrThrow({
      where: { id: made.jobId },
      include: {
        steps: { orderBy: { position: "asc" }, include: { holdPoints: { orderBy: { position: "asc" } } } },
      },
    });
    expect(job).toMatchObject({
      state: "waiting",
      minutes: 83,
      bikeId: ready.bikeId,
      revisionId: sent.revisionId,
    });
    expect(job.steps.map((s) => s.position)).toEqual(job.steps.map((_, i) => i + 1));
    expect(job.steps.slice(0, -1).map((s) => `${s.kind} ${s.key}`)).toEqual(
      frozen.steps.map((s) => `${s.kind} ${s.key}`),
    );
    expect(job.steps.at(-1)).toMatchObject({ kind: "ride", name: "Test ride" });
    expect(job.steps.reduce((sum, s) => sum + s.minutes, 0)).toBe(job.minutes);
    const close = job.steps.find((s) => s.kind === "close" && s.key === "tilt");
    expect(close?.holdPoints.map((h) => `${h.kind}: ${h.name}`)).toEqual([
      "check: Vent hose on",
      "check: Vent hose not kinked",
    ]);
    const fit = job.steps.find((s) => s.key === "fit-main");
    expect(fit?.holdPoints).toMatchObject([
      { kind: "reading", name: "Float height", low: 12, high: 13, increment: 0.5 },
    ]);

    const sheet = await a.read.settingSheet.findFirstOrThrow({
      where: { jobId: job.id },
      include: { values: true },
    });
    const size = frozen.settings.find((s) => s.setting === "mainJet")?.value;
    expect(sheet.kind).toBe("target");
    expect(sheet.values.find((v) => v.setting === "mainJet")).toMatchObject({ value: size, how: "computed" });
    expect(sheet.calculation).toMatchObject({ carburettors: [{ mainJet: { chosen: { size } } }] });

    const reserved = await a.read.reservation.findMany({
      include: { part: true, step: true },
      orderBy: { id: "asc" },
    });
    expect(reserved.map((r) => `${r.part.code} ${r.reservedMilli} ${r.step?.key}`)).toEqual([
      `RM-${size} 1000 fit-main`,
      "BF-20 1000 breather",
    ]);
    expect(await a.read.acceptance.findFirst()).toMatchObject({
      typedName: "Ines Valdborg",
      shownHash: revision.hash,
      agent: "test browser",
      acknowledgements: ["road-use", "starting-point"],
    });
    expect(await a.read.quote.findUnique({ where: { id: sent.id } })).toMatchObject({ state: "accepted" });
    expect(
      await a.read.auditEntry.count({ where: { act: "accepted", noun: "quote", nounId: sent.id } }),
    ).toBe(1);
    expect([await b.read.job.count(), await b.read.acceptance.count()]).toEqual([0, 0]);
  });

  it("makes one job however often and from however many places it is said at once", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const all = await Promise.all(Array.from({ length: 8 }, () => acceptQuote(a, yes(sent))));
    expect(new Set(all.map((one) => one.jobId)).size).toBe(1);
    expect(all.filter((one) => !one.again)).toHaveLength(1);
    expect(await a.read.job.count()).toBe(1);
    expect(await a.read.reservation.count()).toBe(2);
    expect(await a.read.mail.count({ where: { subject: { contains: "accepted" } } })).toBe(1);
  });

  it("promises the last jet to one of two, and tells the other who has it", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a, 1);
    const other = { ...ready, ...(await makeBike(a, "Odd Tangen")) };
    const [one, two] = [await sentQuote(a, ready), await sentQuote(a, other)];
    const answers = await Promise.all([acceptQuote(a, yes(one)), acceptQuote(a, yes(two))]);
    const [first, second] = answers.sort((x, y) => x.short.length - y.short.length);
    expect(first?.short).toEqual([]);
    expect(second?.short.map((s) => s.shortMilli)).toEqual([1000, 1000]);
    expect(second?.short[0]?.reservedBy).toEqual([{ jobNumber: first?.jobNumber, reservedMilli: 1000 }]);
    const parts = await a.read.part.findMany({ where: { reservedMilli: { gt: 0 } } });
    expect(parts.every((p) => p.reservedMilli <= p.onHandMilli)).toBe(true);
  });

  it("is refused without every acknowledgement, or where something else was shown, and nothing is made", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    await expect(acceptQuote(a, { ...yes(sent), acknowledgements: ["road-use"] })).rejects.toMatchObject({
      fields: { "acknowledgements.starting-point": "Tick this to accept." },
    });
    await expect(acceptQuote(a, { ...yes(sent), shownHash: "0".repeat(64) })).rejects.toThrow(
      /not this quote/,
    );
    expect([
      await a.read.job.count(),
      await a.read.acceptance.count(),
      await a.read.reservation.count(),
    ]).toEqual([0, 0, 0]);
  });

  it("is of something that nobody can alter: the database itself refuses a change of a frozen revision", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const before = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    const cheaper = JSON.parse(JSON.stringify({ ...storedQuote(before.frozen), grossMinor: 1 }));
    const where = { id: sent.revisionId };
    await expect(
      a.write((tx) => tx.quoteRevision.update({ where, data: { frozen: cheaper } })),
    ).rejects.toThrow();
    await expect(a.write((tx) => tx.quoteRevision.update({ where, data: { hash: "0" } }))).rejects.toThrow();
    expect(await a.read.quoteRevision.findUniqueOrThrow({ where })).toEqual(before);
  });

  it("is refused after the last day, and after a revision", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const [late, revised] = [await sentQuote(a, ready), await sentQuote(a, ready)];
    const after = as(a, { now: new Date("2026-12-10T00:30:00Z") });
    await expect(acceptQuote(after, yes(late))).rejects.toThrow(/was valid until 9 December 2026/);
    await reviseQuote(a, { id: revised.id, version: 2 });
    await expect(acceptQuote(a, yes(revised))).rejects.toThrow(/changed since/);
    expect(await a.read.job.count()).toBe(0);
  });

  it("can be told to the desk, which is written down with how it was said", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const { agent: _, ...said } = yes(sent);
    const made = await acceptForCustomer(a, { ...said, how: "by phone, Tuesday morning" });
    expect(made.again).toBe(false);
    expect((await a.read.acceptance.findFirstOrThrow()).agent).toBe(
      "told to Test Owner: by phone, Tuesday morning",
    );
  });

  it("adds a variation's work to its job, in front of the test ride", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const made = await acceptQuote(a, yes(await sentQuote(a, ready)));
    const id = await createQuote(a, {
      bikeId: ready.bikeId,
      packageId: ready.packageId,
      variationOfId: made.jobId,
    });
    const { revisionId } = await sendQuote(a, { id, version: 1, origin: ORIGIN });
    const { hash } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const said = yes({ id, revisionId, hash: hash ?? "", token: "" });
    const extra = await acceptQuote(a, said);
    expect(extra).toMatchObject({ jobId: made.jobId, jobNumber: "601" });
    expect(await acceptQuote(a, said)).toMatchObject({ jobId: made.jobId, again: true });
    const job = await a.read.job.findUniqueOrThrow({
      where: { id: made.jobId },
      include: { steps: { orderBy: { position: "asc" } } },
    });
    // 83 for the quote; its work again is 44, while what the first opens is open.
    expect(job.minutes).toBe(83 + 44);
    const work = job.steps.filter((s) => s.kind !== "ride");
    expect(work.reduce((sum, s) => sum + s.minutes, 0)).toBe(job.minutes);
    expect(job.steps.map((s) => s.position)).toEqual(job.steps.map((_, i) => i + 1));
    expect(job.steps.filter((s) => s.kind === "ride")).toHaveLength(1);
    expect(job.steps.at(-1)?.kind).toBe("ride");
  });
});
