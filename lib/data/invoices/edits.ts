import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type InvoiceEdit, type TypedInvoiceLine, typedOf } from "@/lib/domain/invoices/edits";
import { editsOfJob, jobOfKey, keyOfJob } from "@/lib/domain/invoices/severalJobs";
import { Refusal } from "@/lib/domain/refusal";
import { type AddInvoiceLine, type EditLine, storedEdit } from "@/lib/schemas/invoiceEdits";
import { composeInvoice } from "./compose";
import { figuresOf, guarded } from "./draft";
import { type ChargedJobs, jobsOn } from "./jobsOn";
import { chargedOn } from "./lines";
import { demandInvoiceDraft, type InvoiceRow, invoiceIn } from "./rows";

const MILLI = 1000;
const MOST = 200;

/** Every change by hand on a document, in the order the lines were first changed. */
export async function editsOf(
  db: Pick<ShopTx, "invoiceEdit">,
  invoiceId: number,
): Promise<(InvoiceEdit & { at: Date })[]> {
  const rows = await db.invoiceEdit.findMany({
    where: { invoiceId },
    select: { key: true, act: true, line: true, reason: true, personName: true, at: true },
    orderBy: { id: "asc" },
    take: MOST,
  });
  return rows.map((row) => ({ ...storedEdit(row), at: row.at }));
}

/** Changes a line of a draft, takes it off, or takes it as the other basis has it. Answers the draft's id. */
export async function editLine(
  shop: ShopHandle,
  input: EditLine & { key: string; requestKey?: string | undefined },
): Promise<number> {
  const { requestKey: key, ...asked } = input;
  return shop.write((tx) =>
    once(tx, shop, "changed an invoice's line", { asked, key }, async () => {
      const { row, jobs } = await draftIn(tx, input);
      const own = (await editsOf(tx, row.id)).find((edit) => edit.key === input.key && edit.act === "add");
      if (own?.line && input.act === "change") {
        const line = { ...own.line, ...typedIn(input, own.line) };
        return storeIn(tx, shop, row, jobs, { ...change(input, shop), key: own.key, act: "add", line });
      }
      const line = input.act === "change" ? typedAnew(input, jobs, shop.now) : null;
      return storeIn(tx, shop, row, jobs, { ...change(input, shop), key: input.key, act: input.act, line });
    }),
  );
}

/** Adds a line to a draft. Answers the draft's id. */
export async function addInvoiceLine(
  shop: ShopHandle,
  input: AddInvoiceLine & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "added an invoice's line", input, async () => {
      const { row, jobs } = await draftIn(tx, input);
      const before = await editsOf(tx, row.id);
      const part = input.part ? await partFor(tx, input.part) : null;
      const onWhole = input.kind === "allowance" || input.kind === "charge";
      if (part && onWhole)
        throw new Refusal("What is on the whole is no part.", "Leave the part empty.", {
          part: "Leave it empty.",
        });
      const kind = part ? "part" : kindOf(input.kind);
      const line: TypedInvoiceLine = {
        kind,
        ...(input.kind === "charge" ? { adds: true as const } : {}),
        name: input.name,
        unit: part?.unit ?? (kind === "labour" ? "h" : "each"),
        quantityMilli: wholeMinutes(kind, input.quantity ?? MILLI),
        ...(part ? { partId: part.id } : {}),
        unitPriceE4: input.price ?? 0,
        discountBp: input.discount,
        taxMark: input.taxMark,
      };
      const job = furtherJob(jobs, input.jobId);
      const added = editsOfJob(before, job).map((edit) => Number(/^added-(\d+)$/.exec(edit.key)?.[1] ?? 0));
      const key = keyOfJob(job, `added-${Math.max(0, ...added) + 1}`);
      return storeIn(tx, shop, row, jobs, { ...change(input, shop), key, act: "add", line });
    }),
  );
}

/** Adds a line of another room's making to a draft, in a transaction of the caller's. Answers the draft's id. */
export async function addLineIn(
  tx: ShopTx,
  shop: ShopHandle,
  draft: { readonly id: number; readonly version: number },
  added: { readonly key: string; readonly line: TypedInvoiceLine; readonly reason: string },
): Promise<number> {
  const { row, jobs } = await draftIn(tx, draft);
  return storeIn(tx, shop, row, jobs, { ...added, act: "add", by: shop.by.name });
}

/** Takes the changes of one line back: it is charged again as the basis has it. Answers the draft's id. */
export async function putLineBack(
  shop: ShopHandle,
  input: { id: number; version: number; key: string; requestKey?: string | undefined },
): Promise<number> {
  const { requestKey: key, ...asked } = input;
  return shop.write((tx) =>
    once(tx, shop, "put an invoice's line back", { asked, key }, async () => {
      const { row, jobs } = await draftIn(tx, input);
      await demandOne(
        tx.invoiceEdit.deleteMany({ where: { invoiceId: row.id, key: input.key } }),
        () => new Refusal("This line is not changed.", "Look at the draft again.", {}, "conflict"),
      );
      const edits = await editsOf(tx, row.id);
      const printed = composeInvoice(jobs, shop.now, edits);
      await guarded(tx, row, figuresOf(printed));
      await audit(tx, shop, "put line back", "invoice", row.id, {
        line: input.key,
        grossMinor: printed.grossMinor,
      });
      return row.id;
    }),
  );
}

/** Something on or off the whole is a discount, below or above zero. */
const kindOf = (kind: AddInvoiceLine["kind"]) =>
  kind === "allowance" || kind === "charge" ? ("discount" as const) : kind;

const change = (input: { reason: string }, shop: ShopHandle) => ({ reason: input.reason, by: shop.by.name });

async function draftIn(tx: ShopTx, input: { id: number; version: number }) {
  const row = await invoiceIn(tx, input.id);
  demandInvoiceDraft(row, input.version);
  return { row, jobs: await jobsOn(tx, row) };
}

/** The draft is composed with the change before it is kept: what cannot be charged is refused. */
async function storeIn(
  tx: ShopTx,
  shop: ShopHandle,
  row: InvoiceRow,
  jobs: ChargedJobs,
  edit: InvoiceEdit,
): Promise<number> {
  const others = (await editsOf(tx, row.id)).filter((one) => one.key !== edit.key);
  if (others.length >= MOST)
    throw new Refusal(`A draft holds at most ${MOST} changes.`, "Put some lines back first.");
  const printed = composeInvoice(jobs, shop.now, [...others, edit]);
  if (printed.grossMinor < 0)
    throw new Refusal(
      "With this the total would be below zero.",
      "Take less off; money goes back by a credit note.",
    );
  const data = {
    act: edit.act,
    line: (edit.line ?? {}) as unknown as Prisma.InputJsonObject,
    reason: edit.reason,
    personName: edit.by,
    at: shop.now,
  };
  await tx.invoiceEdit.upsert({
    where: { invoiceId_key: { invoiceId: row.id, key: edit.key } },
    create: { invoiceId: row.id, key: edit.key, ...data },
    update: data,
    select: { id: true },
  });
  await guarded(tx, row, figuresOf(printed));
  await audit(tx, shop, `${edit.act === "add" ? "added" : "changed"} line`, "invoice", row.id, {
    line: edit.key,
    act: edit.act,
    reason: edit.reason,
    from: row.grossMinor,
    to: printed.grossMinor,
    ...(edit.line ? { name: edit.line.name } : {}),
  });
  return row.id;
}

/** The part that is taken from stock as an added line is issued. */
async function partFor(tx: ShopTx, code: string) {
  const part = await tx.part.findUnique({
    where: { code },
    select: { id: true, unit: true, active: true },
  });
  if (part?.active) return part;
  throw new Refusal(`There is no part ${code} in stock.`, "Take its code from its page, or leave it empty.", {
    part: `There is no part ${code}.`,
  });
}

/** Number of the job that a line is added to; null for the first one, also where none is named. */
function furtherJob(jobs: ChargedJobs, jobId: number | undefined): string | null {
  const at = jobId === undefined ? 0 : jobs.findIndex((one) => one.facts.job.id === jobId);
  if (at < 0) throw new Refusal("This job is not on the draft.", "Look at the draft again.", {}, "conflict");
  return at === 0 ? null : (jobs[at]?.facts.job.number ?? null);
}

/** The line typed over one that is there: its kind and unit stay. */
function typedAnew(input: EditLine, jobs: ChargedJobs, now: Date): TypedInvoiceLine {
  const { job, key } = jobOfKey(input.key);
  const of = job === null ? jobs[0] : jobs.find((one) => one.facts.job.number === job);
  const { lines } = of ? chargedOn(of, now) : { lines: [] };
  const there = lines.find((line) => line.key === key);
  if (!there)
    throw new Refusal(
      "This line is not in the basis of the draft.",
      "Take it off or put it back, and add a line of your own.",
      {},
      "conflict",
    );
  const before = typedOf(there, lines);
  return { ...before, ...typedIn(input, before) };
}

/** What was typed over a line: what is left empty stays. */
const typedIn = (input: EditLine, before: TypedInvoiceLine) => ({
  name: input.name,
  quantityMilli: wholeMinutes(before.kind, input.quantity ?? before.quantityMilli),
  unitPriceE4: input.price ?? before.unitPriceE4,
  discountBp: input.discount,
  taxMark: input.taxMark,
});

function wholeMinutes(kind: string, quantityMilli: number): number {
  if (kind !== "labour" || quantityMilli % MILLI === 0) return quantityMilli;
  throw new Refusal("Work is charged in whole minutes.", "Enter whole minutes.", {
    quantity: "Enter whole minutes.",
  });
}
