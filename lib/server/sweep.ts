import { sweepPhotos } from "@/lib/data/photos/sweep";
import { directory } from "@/lib/db/directory";
import { openShopNames } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { sweepLimits } from "@/lib/gate/limit";
import { folderStore } from "@/lib/outside/fileStore";

const EVERY_MS = 6 * 3_600_000;

/** A few times a day: counts behind the limits that are old, long-removed photos and files that no photo names, of the shops in use. */
export function startSweeping(): void {
  const round = async () => {
    await sweepLimits(new Date());
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
    round().catch((cause: unknown) => console.error("Sweeping failed:", cause));
  }, EVERY_MS).unref();
}
