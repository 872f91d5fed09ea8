import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { DocumentKind } from "@/lib/domain/invoices/printed";
import { Refusal } from "@/lib/domain/refusal";
import { KIND_NAMES, KIND_WORDS } from "@/lib/schemas/invoices";
import { demandOpenToIssue } from "../shop/closing";
import { dayTexts } from "../shop/dayTexts";

/** An issued document that bears a later date than is to be printed now. */
export interface LaterDocument {
  readonly kind: DocumentKind;
  readonly written: string;
  readonly issuedOn: string;
}

/**
 * The last issued invoice or credit note, where its date is later than `day`: then this server's clock has been set back, or
 * was ahead when that was issued. Null where `day` follows.
 */
export async function laterThan(read: Pick<ShopTx, "invoice">, day: string): Promise<LaterDocument | null> {
  const last = async (kind: LaterDocument["kind"]) => {
    const row = await read.invoice.findFirst({
      where: { kind, state: "issued" },
      select: { written: true, issuedOn: true },
      orderBy: { number: "desc" },
    });
    return row?.issuedOn && row.issuedOn > day
      ? [{ kind, written: row.written, issuedOn: row.issuedOn }]
      : [];
  };
  const found = (await Promise.all([last("invoice"), last("receipt"), last("creditNote")])).flat();
  return found.sort((one, two) => (one.issuedOn < two.issuedOn ? 1 : -1))[0] ?? null;
}

/**
 * Refuses to date a document inside a closed period, or before the last issued one unless the person has said that it is meant.
 * Answers what to record of it.
 */
export async function demandLater(
  tx: ShopTx,
  day: string,
  meant: boolean,
): Promise<{ earlierThan?: string; of?: string }> {
  await demandOpenToIssue(tx, day);
  const later = await laterThan(tx, day);
  if (!later) return {};
  const before = `${KIND_WORDS[later.kind]} ${later.written}`;
  if (meant) return { earlierThan: later.issuedOn, of: before };
  const text = await dayTexts(tx);
  throw new Refusal(
    `Today is ${text(day)} here, and ${before} is dated ${text(later.issuedOn)}: nothing was issued.`,
    "See that the server's clock and the shop's time zone are right. If today's date is right, open this page again and tick that it is.",
    {},
    "conflict",
  );
}

/** A sentence for each document whose date is before that of the number before it, but for those that somebody said are meant. */
export async function dateProblems(shop: ShopHandle, kind: LaterDocument["kind"]): Promise<string[]> {
  const rows = await shop.read.invoice.findMany({
    where: { kind, state: "issued" },
    select: { id: true, number: true, written: true, issuedOn: true, creditsId: true },
    orderBy: { number: "asc" },
  });
  const problems: string[] = [];
  let text: ((day: string) => string) | undefined;
  for (const [at, row] of rows.entries()) {
    const before = rows[at - 1];
    if (!before?.issuedOn || !row.issuedOn || row.issuedOn >= before.issuedOn) continue;
    if (await isMeant(shop, kind === "creditNote" ? row.creditsId : row.id, row)) continue;
    const name = KIND_NAMES[kind];
    text ??= await dayTexts(shop.read);
    problems.push(
      `${name} ${row.written} is dated ${text(row.issuedOn)}, before ${before.written} (${text(before.issuedOn)}): a clock was set back.`,
    );
    if (problems.length === 20) return problems;
  }
  return problems;
}

/** The audit trail says of an issue whether its earlier date was meant. */
async function isMeant(
  shop: ShopHandle,
  invoiceId: number | null,
  { number, written }: { number: number | null; written: string },
): Promise<boolean> {
  const entries = await shop.read.auditEntry.findMany({
    where: { noun: "invoice", nounId: invoiceId, act: { in: ["issued", "credited"] } },
    select: { detail: true },
    orderBy: { id: "asc" },
  });
  return entries.some(({ detail }) => {
    const told = detail as { number?: unknown; creditNote?: unknown; earlierThan?: unknown } | null;
    // The trail of before told numbers as they are kept, today's as they are written.
    const of = told?.creditNote ?? told?.number;
    return told?.earlierThan !== undefined && (of === written || of === number);
  });
}
