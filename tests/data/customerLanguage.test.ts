import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { reachOf } from "@/lib/data/bookings/reach";
import { speakTo } from "@/lib/data/customers/language";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { storedQuote } from "@/lib/data/documents/quote";
import { mailInvoice } from "@/lib/data/invoices/links";
import { mailReady } from "@/lib/data/invoices/readyMail";
import { invoiceOfJob, jobOfLink } from "@/lib/data/papers/ofJob";
import { jobDealings } from "@/lib/data/papers/progress";
import type { ShopHandle } from "@/lib/db/shop";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

/** Words that an English sentence hardly does without, and that no Norwegian one has. */
const ENGLISH =
  /\b(?:the|and|your|you|with|of|this|that|quote|price|shop|please|work|deposit|accepted|from|what)\b/iu;

const mailsOf = (shop: ShopHandle) =>
  shop.read.mail.findMany({
    select: { id: true, subject: true, text: true },
    orderBy: { id: "asc" },
  });

describe("a customer's language", () => {
  it("is what mails, acknowledgements and documents speak, with the formats of the shop's place", async () => {
    const { a, b } = await twoShops();
    await nameShop(a);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { depositBp: 2000 } }));
    const ready = await readyToQuote(a, 40);
    await speakTo(a, { id: ready.customerId, language: "nb" });
    const { jobId } = await readyJob(a, ready);
    const sent = storedQuote((await a.read.quoteRevision.findFirstOrThrow()).frozen);
    expect(sent.locale).toBe("nb-AU");
    expect(sent.acknowledgements.map((one) => one.text).join(" ")).toMatch(/^Jeg forstår .* Jeg forstår /u);
    const invoiceId = await issuedInvoice(a, jobId);
    expect(
      storedInvoice((await a.read.invoice.findUniqueOrThrow({ where: { id: invoiceId } })).frozen).locale,
    ).toBe("nb-AU");
    await mailInvoice(a, { id: invoiceId, origin: ORIGIN });
    const mails = await mailsOf(a);
    expect(mails.map((mail) => mail.subject.replace(/\d+/gu, "#"))).toEqual([
      "Tilbud #: Open-road breathing",
      "Tilbud # er godtatt",
      expect.stringMatching(/faktura/u),
    ]);
    // The shop's own words stand as it wrote them; ours are Norwegian.
    const ours = mails.map((mail) =>
      mail.text
        .split("\n")
        .filter((line) => !/^- |https?:|Open-road|Saltpan|Tarrant|^Shop /u.test(line))
        .join("\n"),
    );
    for (const text of ours) expect(text).not.toMatch(ENGLISH);
    expect(mails[1]?.text).toContain("Forskuddet er ");
    expect(await a.read.mailAttachment.findMany({ where: { mailId: mails[1]?.id ?? 0 } })).toMatchObject([
      { form: "pdf", noun: "quote" },
    ]);
    expect(await mailsOf(b)).toEqual([]);
  });

  it("counts no version, so that it never stands in the desk's way, and is told once", async () => {
    const { a } = await twoShops();
    const { customerId } = await readyToQuote(a);
    const before = await a.read.customer.findUniqueOrThrow({ where: { id: customerId } });
    for (const _ of [1, 2]) await speakTo(a, { id: customerId, language: "nb" });
    const after = await a.read.customer.findUniqueOrThrow({ where: { id: customerId } });
    expect(after).toMatchObject({ language: "nb", version: before.version });
    expect(await a.read.auditEntry.count({ where: { act: "chose a language as" } })).toBe(1);
  });
});

describe("word that a bike is ready", () => {
  it("goes to the customer once, in their language, with the hours and a link to the job's page", async () => {
    const { a } = await twoShops();
    await nameShop(a);
    const ready = await readyToQuote(a, 40);
    await speakTo(a, { id: ready.customerId, language: "nb" });
    await a.write((tx) => tx.staff.updateMany({ data: { hours: { 2: [{ from: "09:00", to: "17:00" }] } } }));
    const { jobId } = await readyJob(a, ready);
    const before = (await mailsOf(a)).length;
    for (const _ of [1, 2]) await mailReady(a, { jobId, origin: ORIGIN, key: "ready-key-1" });
    const mails = (await mailsOf(a)).slice(before);
    expect(mails).toHaveLength(1);
    expect(mails[0]?.subject).toMatch(/^2006 Tarrant Drover 580 er klar, |^Tarrant Drover 580.* er klar, /u);
    expect(mails[0]?.text).toContain("tirsdag: 09:00–17:00");
    expect(mails[0]?.text).toMatch(/https:\/\/workshop\.example\/c\/[\w-]+\/[\w-]{27}/u);
    const link = await a.read.customerLink.findFirstOrThrow({ where: { purpose: "job" } });
    expect(link.jobId).toBe(jobId);
  });

  it("is not said of work that is not finished, nor to nobody", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a, 40);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    await expect(mailReady(a, { jobId, origin: ORIGIN })).rejects.toThrow(/is not finished/u);
    await a.write(async (tx) => {
      await tx.job.update({ where: { id: jobId }, data: { state: "ready", finishedAt: a.now } });
      await tx.customer.update({ where: { id: ready.customerId }, data: { email: "" } });
    });
    await expect(mailReady(a, { jobId, origin: ORIGIN })).rejects.toThrow(/no mail address/u);
    expect(await a.read.customerLink.count({ where: { purpose: "job" } })).toBe(0);
  });
});

describe("the page of a link after the yes", () => {
  it("goes on as the job's: what was agreed, the deposit, then the invoice; long after the quote's last day", async () => {
    const { a, b } = await twoShops();
    await nameShop(a);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { depositBp: 2000 } }));
    const ready = await readyToQuote(a, 40);
    const sent = await sentQuote(a, ready);
    expect(await jobOfLink(a, { jobId: null, revisionId: sent.revisionId })).toBeNull();
    const { jobId } = await acceptQuote(a, { ...yes(sent), language: "en" });
    const link = await a.read.customerLink.findFirstOrThrow({ where: { purpose: "quote" } });
    expect(link.expiresAt.getTime() - a.now.getTime()).toBe(180 * 86_400_000);
    expect(await jobOfLink(a, link)).toBe(jobId);
    const revision = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    expect(await jobDealings(a, jobId)).toMatchObject({
      agreed: { grossMinor: revision.grossMinor, by: yes(sent).typedName },
      // Two tenths of what was agreed, as the quote said it.
      depositLeftMinor: revision.depositMinor,
      depositPaidMinor: 0,
      invoices: [],
      waiting: [],
    });
    expect(revision.depositMinor).toBe(Math.round(revision.grossMinor / 5));
    await a.write((tx) =>
      tx.customer.update({ where: { id: ready.customerId }, data: { address: "9 Ridge Road" } }),
    );
    await a.write((tx) =>
      tx.job.update({
        where: { id: jobId },
        data: { state: "ready", finishedAt: a.now, odometerKm: 41_200 },
      }),
    );
    const invoiceId = await issuedInvoice(a, jobId);
    const dealt = await jobDealings(a, jobId);
    expect(dealt).toMatchObject({
      depositLeftMinor: 0,
      invoices: [{ id: invoiceId, leftMinor: revision.grossMinor }],
    });
    // Another job's invoice, and another shop's, is none of this link's.
    const other = await readyJob(a, ready);
    const foreign = await issuedInvoice(a, other.jobId);
    expect(await invoiceOfJob(a, link, invoiceId)).toBe(invoiceId);
    expect(await invoiceOfJob(a, link, foreign)).toBeNull();
    expect(await invoiceOfJob(b, link, invoiceId)).toBeNull();
  });

  it("says how to reach the shop, with the hours of all who work there laid over each other", async () => {
    const { a } = await twoShops();
    await a.write((tx) =>
      tx.staff.updateMany({
        data: {
          hours: {
            1: [
              { from: "08:00", to: "12:00" },
              { from: "12:30", to: "16:30" },
            ],
            6: [],
          },
        },
      }),
    );
    const reach = await reachOf(a, "en-AU");
    expect(reach.hours).toHaveLength(7);
    expect(reach.hours[0]).toEqual({
      weekday: 1,
      spans: [
        { from: "08:00", to: "12:00" },
        { from: "12:30", to: "16:30" },
      ],
    });
    expect(reach.hours[5]?.spans).toEqual([]);
    expect(reach.numberName).toBe("ABN");
  });
});
