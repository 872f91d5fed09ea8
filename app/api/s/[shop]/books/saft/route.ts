import { saftOf } from "@/lib/data/ledger/saft";
import { saftEntries } from "@/lib/documents/saft";
import { versionHere } from "@/lib/gate/health";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { ledgerRange } from "@/lib/schemas/ledger";
import { inWorker } from "@/lib/workers/pool";

/** The Norwegian audit file (SAF-T Financial 1.30) of `?from=` to `?to=`, written in a worker thread piece by piece. */
export const GET = shopFile("books.read", async (shop, _params, request) => {
  const range = ledgerRange(Object.fromEntries(request.nextUrl.searchParams), shop.now, shop.settings.zone);
  const { head, entries } = await saftOf(shop, range);
  const { currency } = head;
  const first = await inWorker(shop, "saftHead", { ...head, softwareVersion: versionHere() });
  async function* parts(): AsyncGenerator<string, void, undefined> {
    yield first;
    yield* saftEntries(entries, (some) =>
      inWorker(shop, "saftTransactions", { entries: some, currency }, { signal: request.signal }),
    );
  }
  const made = head.createdOn.replaceAll("-", "");
  return file(
    streamOf(parts()),
    "application/xml; charset=utf-8",
    `SAF-T-Financial_${head.company.number}_${made}_${range.from}_${range.to}.xml`,
  );
});
