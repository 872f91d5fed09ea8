import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { hashOf } from "@/lib/data/common/hash";
import { changeCustomer } from "@/lib/data/customers/customers";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { againstErasing } from "@/lib/data/erasing/against";
import { personalData } from "@/lib/data/erasing/dataOf";
import { eraseCustomer } from "@/lib/data/erasing/erase";
import { hasRecordsOver, keptOf, nextRecordOver } from "@/lib/data/erasing/keeping";
import { minimiseOver } from "@/lib/data/erasing/minimise";
import { recordPayment } from "@/lib/data/payments/record";
import { keepPhoto } from "@/lib/data/photos/keep";
import { sweepPhotos } from "@/lib/data/photos/sweep";
import { closeDirectory, directory } from "@/lib/db/directory";
import { dataFolder, postgresUrl } from "@/lib/db/folders";
import { idsMatching } from "@/lib/db/search";
import { personalCsv, personalJson } from "@/lib/documents/personalFiles";
import { Refusal } from "@/lib/domain/refusal";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { CustomerSchema } from "@/lib/schemas/customers";
import { invoiceNow, issuedInvoice, readyJob } from "../support/invoices";
import { allRows } from "../support/moved";
import { phonePhoto } from "../support/pictures";
import { sentQuote } from "../support/quotes";
import { as } from "../support/shops";
import { twoWorkedShops, type WorkedShop } from "../support/workedShops";

/** Invented, and found nowhere by chance. */
const NAME = "Runa Brekkemoen";
const FORMER = "Runa Tvillingfoss";
const EMAIL = "runa.brekkemoen@example.net";
const PHONE = "+47 555 01 77 93";
const STREET = "17 Ospelunden";
const PLATE = "QZ 91847";
const WORDS = /brekkemoen|tvillingfoss|555 ?01 ?77 ?93|5550177?93|ospelunden|qz ?91847/i;

let a: WorkedShop;
let b: WorkedShop;
let otherBefore: Awaited<ReturnType<typeof allRows>>;

const detailsOf = (name: string, version: number) =>
  CustomerSchema.parse({
    version: String(version),
    name,
    email: EMAIL,
    phone: PHONE,
    address: `${STREET}\nSaltpan`,
    notes: `${NAME} rings after six.`,
  });

beforeAll(async () => {
  ({ a, b } = await twoWorkedShops());
  for (const shop of [a, b]) await tell(shop);
  otherBefore = await allRows(b.database);
});
afterAll(closeDirectory);

/** All that a shop comes to know of one customer: two jobs, invoices, mails, links, a booking, signatures, photos, words. */
async function tell(shop: WorkedShop): Promise<void> {
  const { customerId, bikeId } = shop;
  await changeCustomer(shop, customerId, detailsOf(FORMER, 1));
  await changeCustomer(shop, customerId, detailsOf(NAME, 2));
  await shop.write((tx) =>
    tx.bike.update({
      where: { id: bikeId },
      data: {
        plate: PLATE,
        frameNumber: "FRM-QZ91847",
        notes: `${NAME} bought it new`,
        searchKey: "qz 91847",
      },
    }),
  );
  const ready = { customerId, bikeId, packageId: (await shop.read.package.findFirstOrThrow()).id };
  const { jobId } = await readyJob(shop, ready);
  const invoiceId = await issuedInvoice(shop, jobId);
  const { grossMinor } = await invoiceNow(shop, invoiceId);
  await recordPayment(shop, { invoiceId, amountMinor: grossMinor, method: "card", paidOn: "2026-11-25" });
  await shop.write((tx) =>
    tx.customer.update({ where: { id: customerId }, data: { address: `${STREET}\nSaltpan` } }),
  );
  const open = await sentQuote(shop, ready);
  const picture = await preparePicture(await phonePhoto());
  const step = await shop.read.step.findFirstOrThrow({ where: { jobId } });
  await keepPhoto(shop, folderStore(shop.files), picture, {
    noun: "step",
    nounId: step.id,
    file: newFileName(),
  });
  const bay = await shop.read.bay.findFirstOrThrow();
  const at = shop.now;
  await shop.write(async (tx) => {
    await tx.quoteQuestion.create({
      data: { quoteId: open.id, revision: 1, text: `Is it for me, ${NAME}?`, askedAt: at },
    });
    await tx.booking.create({
      data: {
        customerId,
        bikeId,
        bayId: bay.id,
        staffId: shop.by.staffId ?? 0,
        startsAt: new Date(at.getTime() - 7_200_000),
        endsAt: new Date(at.getTime() - 3_600_000),
        guestName: NAME,
        guestPhone: PHONE,
        words: `${NAME} brings it`,
      },
    });
    await tx.arrival.create({
      data: {
        bikeId,
        jobId,
        at,
        words: `Said by ${NAME}`,
        signedAt: at,
        signedBy: NAME,
        signature: "1,2 3,4",
      },
    });
    await tx.handoverSignature.create({
      data: { jobId, signedBy: NAME, signature: "5,6 7,8", signedAt: at },
    });
    await tx.jobYes.create({ data: { jobId, saidBy: NAME, how: "phone", upToMinor: 1, note: PHONE, at } });
    await tx.intake.create({ data: { bikeId, at, complaint: "It spits since my brother rode it" } });
    await tx.testRide.create({ data: { jobId, at, note: "With the owner's brother on the pillion" } });
    await tx.bike.update({ where: { id: bikeId }, data: { complaint: "Spits below a quarter" } });
    const invoice = await tx.invoice.findUniqueOrThrow({ where: { id: invoiceId } });
    const paper = {
      format: "throttlewright-reminder",
      buyer: { name: NAME, address: STREET, taxNumber: "" },
      words: `Dear ${NAME}`,
    };
    await tx.reminder.create({
      data: {
        invoiceId,
        level: 1,
        onDay: "2026-11-25",
        leftMinor: invoice.grossMinor,
        feeMinor: 0,
        automatic: false,
        frozen: paper,
        hash: hashOf(paper),
        at,
      },
    });
    const payment = await tx.payment.findFirstOrThrow({ where: { invoiceId } });
    const list = await tx.bankList.create({
      data: { fileName: "list.csv", added: 1, known: 0, unread: 0, at },
    });
    const bankLine = await tx.bankLine.create({
      data: {
        listId: list.id,
        row: 1,
        bookedOn: "2026-11-25",
        amountMinor: payment.amountMinor,
        text: `From ${NAME}`,
        payer: NAME,
        key: "k",
        rowKey: "k",
        state: "booked",
        decisions: { create: { act: "booked", at, payments: { create: { paymentId: payment.id } } } },
      },
    });
    expect(bankLine.payer).toBe(NAME);
    await tx.stepNote.create({ data: { stepId: step.id, text: `Ring ${PHONE} first`, at } });
    await tx.merged.create({
      data: { noun: "customer", goneId: 900, keptId: customerId, name: FORMER, personName: "Test Owner", at },
    });
    await tx.knownKey.create({ data: { noun: "customer", key: "brekkemoen-1", nounId: customerId } });
    await tx.once.create({
      data: {
        key: `k-${shop.slug}`,
        at,
        act: "did",
        content: "",
        result: JSON.stringify({ said: `“${NAME}”` }),
      },
    });
    await tx.mail.create({
      data: {
        to: "somebody@example.net",
        subject: `About ${NAME}`,
        text: `${EMAIL}\n${PHONE}`,
        createdAt: at,
      },
    });
    await tx.auditEntry.create({
      data: {
        at,
        personId: "x",
        personName: NAME,
        act: "said",
        noun: "shop",
        detail: { who: NAME, at: STREET },
      },
    });
  });
}

/** Where what the law keeps says who they were. */
const KEPT_TRACES = [
  "BankLine.payer",
  "BankLine.text",
  "Invoice.frozen",
  "JobYes.note",
  "JobYes.saidBy",
  "QuoteRevision.frozen",
  "Reminder.frozen",
];

async function all(pieces: AsyncIterable<string>): Promise<string[]> {
  const found: string[] = [];
  for await (const piece of pieces) found.push(piece);
  return found;
}

/** Every text of every row in which something of the customer stands: "Table.column". */
async function tracesIn(database: string): Promise<string[]> {
  const found = new Set<string>();
  for (const [table, rows] of Object.entries(await allRows(database)))
    for (const row of rows)
      for (const [column, value] of Object.entries(row))
        if (typeof value === "string" && WORDS.test(value)) found.add(`${table}.${column}`);
  return [...found].sort();
}

const documentsOf = async (shop: WorkedShop) => ({
  invoices: await shop.read.invoice.findMany({
    select: {
      id: true,
      written: true,
      frozen: true,
      hash: true,
      netMinor: true,
      taxMinor: true,
      grossMinor: true,
      paidMinor: true,
    },
    orderBy: { id: "asc" },
  }),
  payments: await shop.read.payment.findMany({ orderBy: { id: "asc" } }),
  acceptances: await shop.read.acceptance.findMany({ orderBy: { id: "asc" } }),
});

describe("the erasure of a customer's personal data", () => {
  it("is refused while a job is open or an invoice is unpaid, and names it", async () => {
    const packageId = (await a.read.package.findFirstOrThrow()).id;
    const { jobId, ready } = await readyJob(a, { customerId: a.customerId, bikeId: a.bikeId, packageId });
    const { number } = await a.read.job.findUniqueOrThrow({ where: { id: jobId } });
    const { version } = await a.read.customer.findUniqueOrThrow({ where: { id: ready.customerId } });
    const erase = () => eraseCustomer(a, { id: a.customerId, version }, folderStore(a.files));
    await expect(erase()).rejects.toMatchObject({ message: expect.stringContaining(`Job ${number}`) });
    const invoiceId = await issuedInvoice(a, jobId);
    const { written, grossMinor } = await invoiceNow(a, invoiceId);
    await expect(erase()).rejects.toMatchObject({ message: `Not yet: Invoice ${written} is not paid.` });
    expect((await tracesIn(a.database)).length).toBeGreaterThan(15);
    await recordPayment(a, { invoiceId, amountMinor: grossMinor, method: "card", paidOn: "2026-11-25" });
    expect(await againstErasing(a, a.customerId)).toEqual([]);
  });

  it("is offered with all that is known of them, and nothing of anybody else", async () => {
    const found = await personalData(a, a.customerId);
    const { parts, ...head } = found as NonNullable<typeof found>;
    expect(head).toMatchObject({ cutOff: [], shop: expect.any(String) });
    const text = (await all(personalJson(head, parts))).join("");
    expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify({ ...head, parts })));
    for (const part of ["customer", "bikes", "quotes", "jobs", "bookings", "invoices", "payments", "mails"])
      expect([part, (parts[part] ?? []).length > 0]).toEqual([part, true]);
    for (const said of [NAME, EMAIL, PHONE, PLATE, "Spits below a quarter", "since my brother"])
      expect(text).toContain(said);
    const csv = parse((await all(personalCsv(parts))).join(""), { bom: true, columns: true });
    expect(csv).toContainEqual({ part: "customer", record: "1", field: "name", value: NAME });
    for (const secret of [b.database, "costMinor", "tokenHash"]) expect(text).not.toContain(secret);
    expect(await personalData(a, 99_999)).toBeNull();
  });

  it("leaves no trace outside of the documents that stay, which are as they were", async () => {
    const before = await documentsOf(a);
    const pictures = readdirSync(a.files).length;
    const photos = await a.read.photo.findMany({ where: { noun: { not: "part" } } });
    const { version } = await a.read.customer.findUniqueOrThrow({ where: { id: a.customerId } });
    await eraseCustomer(a, { id: a.customerId, version }, folderStore(a.files));
    expect(await tracesIn(a.database)).toEqual(KEPT_TRACES);
    // Neither in the directory nor in a file of theirs.
    const files = readdirSync(a.files).map((name) => join(a.files, name));
    const directoryFiles = postgresUrl()
      ? []
      : readdirSync(dataFolder())
          .filter((name) => name.startsWith("directory.sqlite"))
          .map((name) => join(dataFolder(), name));
    for (const file of [...files, ...directoryFiles])
      expect([file, WORDS.test(readFileSync(file).toString("latin1"))]).toEqual([file, false]);
    expect(await directory().read.erasedCustomer.findMany()).toMatchObject([
      { shopId: a.shopId, customerId: a.customerId },
    ]);
    const kept = await a.read.quoteRevision.findMany({ where: { acceptance: null } });
    expect(kept.filter(({ frozen }) => WORDS.test(JSON.stringify(frozen)))).toEqual([]);
    expect(await documentsOf(a)).toEqual(before);
    expect(photos.length).toBeGreaterThan(1);
    expect(readdirSync(a.files)).toHaveLength(pictures - 2 * photos.length);
    expect(await problemsOf(a, folderStore(a.files))).toEqual([]);
    expect(await a.read.customer.findUniqueOrThrow({ where: { id: a.customerId } })).toMatchObject({
      name: `Erased customer ${a.customerId}`,
      email: "",
      noLetters: true,
    });
    const tables = (["Customer", "Bike", "Quote", "Job", "Invoice"] as const).map((table) => ({
      table,
      most: 9,
    }));
    for (const text of ["brekkemoen", "91847", "ospelunden"])
      expect(await idsMatching(a, tables, [{ text }])).toEqual([]);
    expect(await a.read.customerLink.count()).toBe(0);
    // What they said of the bike in words that name nobody is gone too.
    expect(JSON.stringify(await allRows(a.database))).not.toMatch(/brother|Spits below/);
    expect(JSON.stringify(otherBefore)).toMatch(/brother/);
  });

  it("tells what stays, why and until when, and none of it is over before", async () => {
    const { kept, years, source, erased } = await keptOf(a, a.customerId);
    expect({ years, erased, source }).toMatchObject({
      years: 5,
      erased: true,
      source: expect.stringMatching(/262A/),
    });
    expect(kept.every((one) => one.whole && one.until === "2032-06-30")).toBe(true);
    expect(kept.map(({ name }) => name.replace(/[\d-]+/, "N"))).toEqual(
      expect.arrayContaining([
        "Invoice N",
        "Quote N, accepted",
        "What was agreed by word and paid for job N",
      ]),
    );
    expect(await keptOf(b, b.customerId)).toMatchObject({ erased: false });
    expect(await nextRecordOver(a)).toEqual(new Date("2032-06-30T14:00:00Z"));
    expect(await minimiseOver(as(a, { now: new Date("2032-06-30T12:00:00Z") }))).toBe(0);
  });

  it("leaves the guards of ledgers and documents as they were", async () => {
    const change = () => a.write((tx) => tx.auditEntry.updateMany({ data: { act: "x" } }));
    await expect(change()).rejects.toThrow();
    await expect(a.write((tx) => tx.invoice.updateMany({ data: { grossMinor: 1 } }))).rejects.toThrow();
    await expect(b.write((tx) => tx.auditEntry.updateMany({ data: { act: "x" } }))).rejects.toThrow();
  });

  it("changes nothing in the other shop, and nothing of a customer who is written the same", async () => {
    expect(await allRows(b.database)).toEqual(otherBefore);
    const { id, version } = await b.write((tx) =>
      tx.customer.create({
        data: {
          name: NAME,
          email: EMAIL,
          phone: PHONE,
          searchKey: `${NAME} ${EMAIL} ${PHONE}`.toLowerCase(),
          createdAt: b.now,
        },
      }),
    );
    // Their bike has a photo, and the store that it lies in is down: the records go all the same, and that is said.
    const bike = await b.read.bike.findFirstOrThrow({ where: { customerId: b.customerId } });
    const { id: _, ...alike } = bike;
    const theirs = await b.write((tx) =>
      tx.bike.create({ data: { ...alike, customerId: id, importKey: null }, select: { id: true } }),
    );
    const file = newFileName();
    const shown = { noun: "bike" as const, nounId: theirs.id, file };
    await keepPhoto(b, folderStore(b.files), await preparePicture(await phonePhoto()), shown);
    const down = { remove: () => Promise.reject(new Refusal("The store is down.", "Wait.")) };
    await expect(eraseCustomer(b, { id, version }, down)).rejects.toMatchObject({
      message: "The customer is erased, but not all of their photos are gone yet. The store is down.",
    });
    expect(await b.read.photo.count({ where: { file } })).toBe(0);
    const late = { ...b, now: new Date(Date.now() + 2 * 86_400_000) };
    expect(await sweepPhotos(late, folderStore(b.files))).toEqual({ photos: 0, files: 2 });
    expect(await b.read.customer.findUniqueOrThrow({ where: { id: b.customerId } })).toMatchObject({
      name: NAME,
      email: EMAIL,
    });
    expect(await b.read.booking.count({ where: { guestName: NAME } })).toBe(1);
    expect((await b.read.customer.findUniqueOrThrow({ where: { id } })).name).toBe(`Erased customer ${id}`);
  });

  it("goes out of the documents too once their time is over, and the books stay equal", async () => {
    const sums = async () => (await documentsOf(a)).invoices.map(({ frozen: _, hash: __, ...row }) => row);
    const before = await sums();
    const others = await allRows(b.database);
    const later = as(a, { now: new Date("2032-07-01T00:00:00Z") });
    const payments = (await documentsOf(a)).payments.map((row) => ({ ...row, reference: "" }));
    // A shop may keep for longer than the law wants, never shorter.
    const keeps = (keepYears: number | null) =>
      a.write((tx) => tx.settings.updateMany({ data: { keepYears } }));
    await keeps(7);
    expect(await hasRecordsOver(later)).toBe(false);
    await keeps(1);
    expect(await hasRecordsOver(as(a, { now: new Date("2032-06-29T00:00:00Z") }))).toBe(false);
    while (await hasRecordsOver(later)) await minimiseOver(later);
    expect(await tracesIn(a.database)).toEqual([]);
    expect(await sums()).toEqual(before);
    expect((await documentsOf(a)).payments).toEqual(payments);
    expect(await problemsOf(a, folderStore(a.files))).toEqual([]);
    for (const { frozen } of (await documentsOf(a)).invoices)
      expect(storedInvoice(frozen).lines).toBeDefined();
    expect((await keptOf(later, a.customerId)).kept.some((one) => one.whole)).toBe(false);
    expect(await nextRecordOver(later)).toBeNull();
    expect(await allRows(b.database)).toEqual(others);
    await expect(a.write((tx) => tx.invoice.updateMany({ data: { hash: "x" } }))).rejects.toThrow();
    await expect(a.write((tx) => tx.bankLine.updateMany({ data: { payer: "x" } }))).rejects.toThrow();
  });
});
