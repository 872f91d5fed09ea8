import { createHash } from "node:crypto";
import { inBackground } from "@/lib/db/giveWay";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { BankRow } from "@/lib/domain/bank/types";
import type { RowProblem } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import type { BankListInput } from "@/lib/schemas/bank";
import { inWorker } from "@/lib/workers/pool";
import { gathered } from "@/lib/workers/slices";
import { chunks, fetched } from "../common/chunks";
import { keepFormatIn } from "./format";

export interface BankListView {
  /** Lines that are new here, and of them those that bring money. */
  readonly added: number;
  readonly incoming: number;
  /** Lines of this file that are here already: nothing is booked twice. */
  readonly known: number;
  /** Rows that cannot be read; they are left out. */
  readonly problems: readonly RowProblem[];
  /** The first lines as they were understood. */
  readonly first: readonly Pick<BankRow, "line" | "bookedOn" | "amountMinor" | "text" | "payer">[];
}

const SHOWN = 5;

type Keyed = BankRow & { readonly hash: string; readonly rowHash: string };

const hashed = (text: string) => createHash("sha256").update(text).digest("hex");

async function readList(shop: ShopHandle, { text, columns, dates, mark }: BankListInput): Promise<ListRead> {
  const { currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true },
  });
  const read = await inWorker(shop, "bankList", { text, columns, terms: { dates, mark, currency } });
  return {
    headings: read.headings,
    rows: await gathered(read.rows),
    problems: await gathered(read.problems),
  };
}

interface ListRead {
  readonly headings: readonly string[];
  readonly rows: readonly BankRow[];
  readonly problems: readonly RowProblem[];
}

const keyed = (row: BankRow): Keyed => ({ ...row, hash: hashed(row.key), rowHash: hashed(row.rowKey) });

/** Lines of the file that are not here yet, by what they say and by the row as it stands. */
async function newIn(db: Pick<ShopTx, "bankLine">, rows: readonly Keyed[]): Promise<Keyed[]> {
  const there = await fetched(rows, (some) =>
    db.bankLine.findMany({
      where: {
        OR: [
          { key: { in: some.map((row) => row.hash) } },
          { rowKey: { in: some.map((row) => row.rowHash) } },
        ],
      },
      select: { key: true, rowKey: true },
      orderBy: { id: "asc" },
    }),
  );
  const known = new Set(there.flatMap((one) => [one.key, one.rowKey]));
  return rows.filter((row) => !known.has(row.hash) && !known.has(row.rowHash));
}

const viewOf = ({ rows, problems }: ListRead, added: readonly Keyed[]): BankListView => ({
  added: added.length,
  incoming: added.filter((row) => row.amountMinor > 0).length,
  known: rows.length - added.length,
  problems,
  first: rows.slice(0, SHOWN).map(({ line, bookedOn, amountMinor, text, payer }) => ({
    line,
    bookedOn,
    amountMinor,
    text,
    payer,
  })),
});

/** What taking a bank's list in would do. Writes nothing. */
export function previewBankList(shop: ShopHandle, input: BankListInput): Promise<BankListView> {
  return inBackground(async () => {
    const read = await readList(shop, input);
    return viewOf(read, await newIn(shop.read, read.rows.map(keyed)));
  });
}

/** Takes the lines of a bank's list in that are not here yet, once per key, and remembers its columns. Books nothing. */
export function takeBankListIn(shop: ShopHandle, input: BankListInput, key?: string): Promise<BankListView> {
  return inBackground(async () => storeReadList(shop, input, await readList(shop, input), key));
}

/** As takeBankListIn, of a list that was read already. */
export function storeReadList(
  shop: ShopHandle,
  input: BankListInput,
  read: ListRead,
  key?: string,
): Promise<BankListView> {
  return shop.write((tx) =>
    once(tx, shop, "took a bank's list in", { ...input, key }, async () => {
      if (read.rows.length === 0)
        throw new Refusal(
          "No row of this file could be read.",
          "Choose other columns, or another order of day, month and year.",
        );
      const rows = read.rows.map(keyed);
      const added = await newIn(tx, rows);
      await storeIn(tx, shop, input, { ...read, rows }, added);
      return viewOf({ ...read, rows }, added);
    }),
  );
}

async function storeIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: BankListInput,
  { headings, rows, problems }: ListRead,
  added: readonly Keyed[],
): Promise<void> {
  const counts = { added: added.length, known: rows.length - added.length, unread: problems.length };
  const { id } = await tx.bankList.create({
    data: { at: shop.now, fileName: input.fileName, staffId: shop.by.staffId, ...counts },
    select: { id: true },
  });
  for (const some of chunks(added))
    await tx.bankLine.createMany({
      data: some.map(({ line, bookedOn, amountMinor, text, payer, hash, rowHash }) => ({
        listId: id,
        row: line,
        bookedOn,
        amountMinor,
        text,
        payer,
        key: hash,
        rowKey: rowHash,
      })),
    });
  await keepFormatIn(tx, headings, input.columns, input);
  await audit(tx, shop, "took in", "bank list", id, { fileName: input.fileName, ...counts });
}
