import { weeksOfHours } from "@/lib/data/figures/hours";
import { hoursCsvParts } from "@/lib/documents/csv";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { HoursFileQuery } from "@/lib/schemas/hours";

/** Hours per person and week for wages: `?from=` and `?to=` are local days, both optional. Sent as it is made. */
export const GET = shopFile("export.run", async (shop, _params, request) => {
  const days = HoursFileQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return file(
    streamOf(hoursCsvParts(weeksOfHours(shop, days))),
    "text/csv; charset=utf-8",
    `hours-${days.from ?? days.to ?? "this-week"}.csv`,
  );
});
