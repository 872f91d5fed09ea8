import { openItems } from "@/lib/data/bank/openItems";
import { storeReadList } from "@/lib/data/bank/takeIn";
import type { ShopHandle } from "@/lib/db/shop";
import { readBankList } from "@/lib/domain/bank/readList";
import { BankListSchema } from "@/lib/schemas/bank";
import { parseCsv } from "@/lib/schemas/csv";

/** The bank's list of this morning: what is open comes in with its number or its name, beside what nobody knows and a fee. */
export async function bankLines(shop: ShopHandle, day: string): Promise<void> {
  const open = (await openItems(shop.read)).filter((item) => item.leftMinor > 0);
  const money = (minor: number) => (minor / 100).toFixed(2);
  const [first, second] = open;
  const rows = [
    ...(first ? [[day, money(first.leftMinor), `${first.kind} ${first.written}`, first.customerName]] : []),
    ...(second ? [[day, money(second.leftMinor), "for the bike", second.customerName]] : []),
    [day, "45.00", "thanks for the tea", "W Tolliver"],
    [day, "-6.50", "account fee", ""],
  ];
  const input = BankListSchema.parse({
    fileName: "movements.csv",
    text: [["Date", "Amount", "Description", "Payer"], ...rows].map((row) => row.join(";")).join("\n"),
    columns: { date: "0", amount: "1", text: "2", payer: "3" },
    dates: "ymd",
    mark: ".",
  });
  // Read here and not by a worker: the demo is built in a process of its own.
  const csv = parseCsv(input.text);
  const { rows: lines, problems } = readBankList(csv.headings, csv.rows, input.columns, {
    dates: input.dates,
    mark: input.mark,
    currency: "AUD",
  });
  await storeReadList(shop, input, { headings: csv.headings, rows: lines, problems });
}
