import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { storedQuote } from "@/lib/data/documents/quote";
import { mailInvoice } from "@/lib/data/invoices/links";
import { mailReady } from "@/lib/data/invoices/readyMail";
import { enclosedWith, encloseIn, getEnclosed } from "@/lib/data/mail/attachments";
import { listMail } from "@/lib/data/mail/list";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { cancelRest } from "@/lib/data/orders/cancel";
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { createPart } from "@/lib/data/parts/save";
import { remindQuote } from "@/lib/data/quotes/remind";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { invoicePdf } from "@/lib/documents/invoice";
import { quotePdf } from "@/lib/documents/quote";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { NewPartSchema } from "@/lib/schemas/parts";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { wordsOf, wordsOfHtml } from "../support/letterWords";
import { pdfText } from "../support/pdfText";
import { ORIGIN, readyToQuote, sentQuote } from "../support/quotes";
import { twoShops } from "../support/shops";
import { type MailServer, mailServer, partsOf } from "../support/smtp";

let post: MailServer;
let a: ShopHandle;
let b: ShopHandle;

beforeAll(async () => {
  post = await mailServer();
  reconfigure({ SMTP_URL: post.url, MAIL_FROM: "desk@saltpan.example" });
});
afterAll(async () => {
  reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
  await post.close();
});
beforeEach(async () => {
  post.received.length = 0;
  ({ a, b } = await twoShops());
});

const send = (shop: ShopHandle) => sendDue(mailQueueOf(shop), mailer(), printEnclosed);

/** What arrived with the newest mail, by name. */
function arrived() {
  const mail = post.received.at(-1);
  if (!mail) throw new Error("Nothing arrived.");
  const [text, ...rest] = partsOf(mail.raw);
  const html = rest.find((part) => part.type === "text/html" && part.name === "");
  const files = rest.filter((part) => part !== html);
  return {
    to: mail.to,
    raw: mail.raw,
    text: text?.content.toString() ?? "",
    html: html?.content.toString(),
    files,
  };
}

async function placedOrder(shop: ShopHandle) {
  const partId = await createPart(
    shop,
    NewPartSchema.parse({
      code: "AT-1",
      name: "Pilot jet 45",
      kind: "other",
      unit: "each",
      supplier: "Marl Supplies",
      leadDays: "5",
      cost: "3.25",
    }),
  );
  await shop.write((tx) => tx.supplier.updateMany({ data: { email: "desk@marl.example" } }));
  const [id] = await addToDrafts(shop, [{ partId, quantityMilli: 12_000 }]);
  const draft = await getOrder(shop, id as number, true);
  await placeOrder(shop, { orderId: id as number, version: draft?.version ?? 0, mail: true });
  return { id: id as number, partId };
}

describe("a purchase order's mail", () => {
  it("arrives with the paper and the list, as the order was when it was placed, however it has changed since", async () => {
    const { id, partId } = await placedOrder(a);
    const [line] = await a.read.orderLine.findMany({ where: { orderId: id } });
    await cancelRest(a, { lineId: line?.id ?? 0, why: "found in the drawer" });
    await a.write((tx) => tx.part.update({ where: { id: partId }, data: { name: "Renamed since" } }));
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    const { to, text, files } = arrived();
    expect(to).toEqual(["desk@marl.example"]);
    expect(text).toContain("12 x AT-1  Pilot jet 45");
    expect(files.map((file) => [file.type, file.name])).toEqual([
      ["application/pdf", "order-81.pdf"],
      ["text/csv", "order-81.csv"],
    ]);
    const paper = await pdfText(files[0]?.content ?? Buffer.alloc(0));
    expect(paper).toContain("Purchaseorder81");
    expect(paper).toContain("Pilotjet45");
    expect(paper).not.toContain("Renamed");
    const rows = (files[1]?.content.toString() ?? "").trim().split("\r\n");
    expect(rows[1]).toMatch(/^81,2026-11-25,[^,]*,AT-1,Pilot jet 45,12,each,[^,]*,AUD,2026-11-30,0,12$/);
    expect((await listMail(a)).rows[0]?.enclosed.map((one) => one.name)).toEqual([
      "order-81.pdf",
      "order-81.csv",
    ]);
    expect((await listMail(b)).rows).toEqual([]);
  });

  it("writes nothing to go along where no mail was asked for or the order was refused", async () => {
    const { id } = await placedOrder(a);
    await expect(placeOrder(a, { orderId: id, version: 1, mail: true })).rejects.toThrow(/placed already/);
    expect(await a.read.mailAttachment.count()).toBe(2);
    expect(await b.read.mailAttachment.count()).toBe(0);
  });
});

describe("a letter on its way", () => {
  it("leaves with an HTML twin of the same words, escaped, and with the shop's own address for the answer", async () => {
    await nameShop(a);
    await a.write(async (tx) => {
      await tx.settings.update({
        where: { id: 1 },
        data: { email: "post@saltpan.example", phone: "0400 5 & 6" },
      });
    });
    const ready = await readyToQuote(a, 40);
    await a.write((tx) => tx.customer.updateMany({ data: { name: "Åse <b>Tveit</b> & co." } }));
    const { jobId } = await readyJob(a, ready);
    const id = await issuedInvoice(a, jobId);
    await mailInvoice(a, { id, origin: ORIGIN });
    await mailReady(a, { jobId, origin: ORIGIN });
    const kept = await a.read.mail.findMany({ orderBy: { id: "asc" } });
    expect(kept.map((mail) => mail.letter)).toEqual(["quote", "yes", "invoice", "ready"]);
    expect(await send(a)).toEqual({ sent: 4, failed: 0 });
    for (const [at, mail] of kept.entries()) {
      const raw = post.received[at]?.raw ?? "";
      const [plain, html] = partsOf(raw);
      expect([plain?.type, html?.type]).toEqual(["text/plain", "text/html"]);
      expect(raw).toMatch(/^Content-Type: multipart\/alternative;/im);
      expect(raw).toMatch(/^Reply-To: <?post@saltpan\.example>?\r$/im);
      const said = wordsOf(plain?.content.toString() ?? "");
      expect(said).toEqual(wordsOf(mail.text));
      expect(wordsOfHtml(html?.content.toString() ?? "")).toEqual(said);
      expect(html?.content.toString()).not.toContain("<b>");
    }
  });

  it("has no twin where it is no letter to a customer, and no other address where the shop has none", async () => {
    await placedOrder(a);
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    expect(arrived().html).toBeUndefined();
    expect(arrived().raw).not.toMatch(/^Reply-To:/im);
  });
});

describe("a quote's mail", () => {
  it("arrives with the frozen quote on paper beside its link, byte for byte, and so does a reminder", async () => {
    const sent = await sentQuote(a, await readyToQuote(a));
    const row = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    const frozen = storedQuote(row.frozen);
    const paper = Buffer.from(await quotePdf(frozen, "AU"));
    // What the customer is called by now is not what was frozen.
    await a.write((tx) => tx.customer.updateMany({ data: { name: "Married Name" } }));
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    expect(arrived().text).toContain(`${ORIGIN}/c/`);
    expect(arrived().files).toEqual([
      { type: "application/pdf", name: `quote-${frozen.number}-1.pdf`, content: paper },
    ]);
    expect(await pdfText(paper)).toContain("InesValdborg");
    // The shop's number stands on it with what it is called, on a quote from before that was kept by itself.
    const { numberName, ...shop } = { ...frozen.shop, taxNumber: "51 824 753 556" };
    expect(numberName).toBe("ABN");
    const said = async (as: typeof shop) => pdfText(await quotePdf({ ...frozen, shop: as }, "AU"));
    expect(await said({ ...shop, numberName } as typeof shop)).toContain("ABN51824753556");
    expect(await said(shop)).not.toContain("ABN");
    const { version } = await a.read.quote.findUniqueOrThrow({ where: { id: sent.id } });
    await remindQuote(a, { id: sent.id, version, words: "", origin: ORIGIN });
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    expect(arrived().files.map((file) => file.content.equals(paper))).toEqual([true]);
  });
});

describe("an invoice's mail", () => {
  it("arrives with the issued invoice on paper, once for one request", async () => {
    await nameShop(a);
    const { jobId } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    await a.write((tx) => tx.mail.updateMany({ data: { state: "sent" } }));
    for (const key of ["mail-once", "mail-once"]) await mailInvoice(a, { id, origin: ORIGIN, key });
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    const { frozen } = await invoiceNow(a, id);
    const { files } = arrived();
    expect(files.map((file) => file.name)).toEqual(["invoice-2001.pdf"]);
    expect(files[0]?.content.equals(Buffer.from(await invoicePdf(frozen as never)))).toBe(true);
  });
});

describe("what goes with a mail", () => {
  it("keeps a mail from leaving without it: one that cannot be made fails the mail, which stays to be read", async () => {
    const mailId = await a.write(async (tx) => {
      const mail = await tx.mail.create({
        data: { to: "x@example.com", subject: "Quote", text: "Hello", createdAt: a.now },
      });
      await encloseIn(tx, mail.id, { noun: "quote", nounId: 999, form: "pdf", name: "quote-1-1.pdf" });
      return mail.id;
    });
    expect(await send(a)).toEqual({ sent: 0, failed: 1 });
    expect(post.received).toEqual([]);
    expect(await a.read.mail.findUniqueOrThrow({ where: { id: mailId } })).toMatchObject({
      state: "failed",
      failure: expect.stringContaining("quote-1-1.pdf"),
    });
  });

  it("never changes once it is written, names only documents, and is not another shop's", async () => {
    await placedOrder(a);
    const [one] = await a.read.mailAttachment.findMany({ orderBy: { id: "asc" } });
    const id = one?.id ?? 0;
    for (const data of [{ name: "other.pdf" }, { nounId: 2 }, { mailId: 7 }])
      await expect(a.write((tx) => tx.mailAttachment.update({ where: { id }, data }))).rejects.toThrow(
        /constraint|never changes/i,
      );
    const data = { mailId: 1, nounId: 1, name: "x", form: "pdf", noun: "customer" };
    await expect(a.write((tx) => tx.mailAttachment.create({ data }))).rejects.toThrow(
      /constraint|names no document/i,
    );
    expect(await getEnclosed(a, id)).toMatchObject({
      document: "order",
      form: "pdf",
      printed: { number: "81" },
    });
    expect(await getEnclosed(b, id)).toBeNull();
    expect(await enclosedWith(b, one?.mailId ?? 0)).toEqual([]);
  });
});
