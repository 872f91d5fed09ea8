import { exportedDays } from "@/lib/data/endOfDay/export";
import { daysCsvParts } from "@/lib/documents/daysCsv";
import { file, shopFile, streamOf } from "@/lib/gate/route";

/** Every closed day, as it was counted. Sent as it is made. */
export const GET = shopFile("export.run", async (shop) =>
  file(streamOf(daysCsvParts(exportedDays(shop))), "text/csv; charset=utf-8", "days.csv"),
);
