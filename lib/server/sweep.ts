import { sweepPhotos } from "@/lib/data/photos/sweep";
import { directory } from "@/lib/db/directory";
import { openShopNames } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { log } from "@/lib/log/log";
import { folderStore } from "@/lib/outside/fileStore";

const EVERY_MS = 6 * 3_600_000;

/** Erases long-removed photos and files that no photo names, of the shops in use, a few times a day. */
export function startSweeping(): void {
  const round = async () => {
    const shops = await directory().read.shop.findMany({
      where: { database: { in: openShopNames() }, closedAt: null },
      select: { slug: true, database: true },
      orderBy: { id: "asc" },
    });
    for (const shop of shops) {
      const handle = handleFor(shop, SYSTEM, new Date());
      await sweepPhotos(handle, folderStore(handle.files));
    }
  };
  setInterval(() => {
    round().catch((cause: unknown) => log().error({ err: cause }, "Sweeping photos failed."));
  }, EVERY_MS).unref();
}
