import { describe, expect, it } from "vitest";
import { handoverPaper } from "@/app/_documents/handoverPaper";
import { signHandover } from "@/lib/data/jobs/signHandover";
import { handedOver } from "@/lib/data/papers/handedOver";
import { jobDealings } from "@/lib/data/papers/progress";
import { handoverPdf } from "@/lib/documents/handover";
import { SignHandoverSchema } from "@/lib/schemas/handover";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { as, twoShops } from "../support/shops";

describe("a handover", () => {
  it("says what is next and what is to pay, as the customer's page does, and who signed", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) await nameShop(shop);
    const { jobId, grossMinor, ready } = await readyJob(a);
    await a.write(async (tx) => {
      const { modelCardId } = await tx.bike.update({
        where: { id: ready.bikeId },
        data: { odometerKm: 41_200 },
      });
      await tx.modelCard.update({ where: { id: modelCardId }, data: { serviceKm: 6000, serviceMonths: 3 } });
      await tx.followUp.create({
        data: {
          bikeId: ready.bikeId,
          jobId,
          what: "Look at again, it has been hot and cold: header nuts",
          recheck: true,
          dueOn: "2026-12-24",
          dueKm: 41_500,
          createdAt: a.now,
        },
      });
    });
    const agreed = await handedOver(a, jobId);
    expect(agreed).toMatchObject({
      checks: [
        { kind: "again", what: "header nuts", dueOn: "2026-12-24", dueKm: 41_500 },
        { kind: "service", dueOn: "2027-02-25", dueKm: 47_200 },
      ],
      toPay: { leftMinor: grossMinor },
      signed: null,
    });
    expect(await handedOver(b, jobId)).toBeNull();

    await issuedInvoice(a, jobId);
    const { written } = await a.read.invoice.findFirstOrThrow({ where: { jobId } });
    const dealt = await jobDealings(a, jobId);
    const end = await handedOver(a, jobId);
    expect(end?.toPay.rows.map((row) => [row.name, row.minor])).toEqual(
      dealt.invoices.map((one) => [one.written, one.leftMinor]),
    );
    const input = SignHandoverSchema.parse({ jobId: String(jobId), signedBy: "Oda Fenn", signature: "" });
    await signHandover(a, { ...input, key: "sign-key-1" });
    await signHandover(a, { ...input, key: "sign-key-1" });
    expect(await a.read.handoverSignature.count()).toBe(1);
    const later = as(a, { now: new Date(a.now.getTime() + 60_000) });
    await signHandover(later, { ...input, signedBy: "Per Fenn", signature: "10,10 200,80 300,20" });
    expect((await handedOver(a, jobId))?.signed).toMatchObject({ signedBy: "Per Fenn" });
    expect(await a.read.handoverSignature.count()).toBe(2);
    await expect(a.write((tx) => tx.handoverSignature.deleteMany())).rejects.toThrow();

    const paper = await handoverPaper(a, jobId);
    if (!paper) throw new Error("no paper");
    const text = await pdfText(await handoverPdf(paper));
    for (const said of ["headernuts", "Servicebythemodel", written, "PerFenn"]) expect(text).toContain(said);
    expect(await handoverPaper(b, jobId)).toBeNull();
  });

  it("speaks the customer's language on paper, whoever prints it", async () => {
    const { a } = await twoShops();
    await nameShop(a);
    const { jobId, ready } = await readyJob(a);
    await a.write((tx) => tx.customer.update({ where: { id: ready.customerId }, data: { language: "nb" } }));
    const paper = await handoverPaper(a, jobId);
    expect(paper?.shop.locale).toMatch(/^nb/);
    expect(paper?.toPay.at(-1)?.what).toBe("Å betale");
  });

  it("is not signed for before the work is finished", async () => {
    const { a } = await twoShops();
    await nameShop(a);
    const { jobId } = await readyJob(a);
    await a.write((tx) =>
      tx.job.update({ where: { id: jobId }, data: { finishedAt: null, state: "inWork" } }),
    );
    await expect(signHandover(a, { jobId, signedBy: "Oda Fenn", signature: "" })).rejects.toThrow(
      /not finished/,
    );
    await expect(signHandover(a, { jobId: 999, signedBy: "Oda Fenn", signature: "" })).rejects.toThrow(
      /no such job/,
    );
  });
});
