import { exportOf, noteExportFetched } from "@/lib/data/people/exports";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { exportStream } from "@/lib/gate/exportFile";
import { file, shopFile } from "@/lib/gate/route";

/** All records of the shop in one file, once it is made. */
export const GET = shopFile("shop.export", async (shop) => {
  const made = await exportOf(shop.shopId, shop.now);
  const kept = made.state === "ready" ? exportStream(made.file) : null;
  if (made.state !== "ready" || !kept)
    throw new Refusal(
      "There is no such file (any more).",
      "Ask for it under Shop > Your data.",
      {},
      "missing",
    );
  await noteExportFetched(shop);
  const day = dayIn(shop.settings.zone, made.readyAt);
  const answer = file(kept.body, "application/zip", `${shop.slug}-${day}.zip`);
  answer.headers.set("Content-Length", String(kept.bytes));
  return answer;
});
