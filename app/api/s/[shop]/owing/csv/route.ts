import { accountLines } from "@/lib/data/chasing/accounts";
import { owingCsv } from "@/lib/documents/owing";
import { dayIn } from "@/lib/domain/schedule/days";
import { file, shopFile } from "@/lib/gate/route";
import { OwingQuery } from "@/lib/schemas/chasing";

/** What customers owe at the end of a day, a row for each document and column: `?on=` is a day, today where there is none. */
export const GET = shopFile("export.run", async (shop, _params, request) => {
  const { on } = OwingQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  const day = on ?? dayIn(shop.settings.zone, shop.now);
  const { lines } = await accountLines(shop.read, day);
  const rows = lines.map(({ customer, of, ...line }) => ({
    ...line,
    customer: customer?.name ?? "",
    document: of.noun,
    number: of.number,
  }));
  return file(
    owingCsv(rows, { day, currency: shop.settings.currency }),
    "text/csv; charset=utf-8",
    `owing-${day}.csv`,
  );
});
