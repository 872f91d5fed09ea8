import { paidIn } from "@/lib/data/figures/daysToPay";
import { packageJobsIn } from "@/lib/data/figures/packageJobs";
import { rangesFor } from "@/lib/data/figures/ranges";
import { eachRevenueDocument } from "@/lib/data/figures/revenue";
import { soldHoursIn } from "@/lib/data/figures/soldHours";
import { stockIn } from "@/lib/data/figures/stockFigures";
import {
  daysToPayCsv,
  packageJobsCsv,
  revenueCsvParts,
  soldHoursCsv,
  stockFiguresCsv,
} from "@/lib/documents/figures";
import { Refusal } from "@/lib/domain/refusal";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { FiguresQuery } from "@/lib/schemas/figures";

/** A figure as a file: `?figure=` says which, `range`, `from` and `to` as on its page. Layouts: lib/documents/figures.ts. */
export const GET = shopFile("figures.read", async (shop, _params, request) => {
  const query = Object.fromEntries(request.nextUrl.searchParams);
  const asked = FiguresQuery.parse(query);
  const { range, zone } = await rangesFor(shop, asked);
  const { currency } = shop.settings;
  const send = (csv: Parameters<typeof file>[0]) =>
    file(csv, "text/csv; charset=utf-8", `${query.figure}-${range.from}-${range.to}.csv`);
  switch (query.figure) {
    case "revenue":
      return send(
        streamOf(revenueCsvParts(eachRevenueDocument(shop, { range, kind: asked.kind }), currency)),
      );
    case "hours":
      return send(soldHoursCsv((await soldHoursIn(shop, range, zone)).months));
    case "stock":
      return send(stockFiguresCsv((await stockIn(shop, range, zone)).rows, currency));
    case "owed":
      return send(daysToPayCsv((await paidIn(shop, range)).rows, currency));
    case "packages":
      if (!shop.can("margin.read")) break;
      return send(packageJobsCsv((await packageJobsIn(shop, range)).rows, currency));
  }
  throw new Refusal("There is no such file.", "Open it from the page of its figure.", {}, "missing");
});
