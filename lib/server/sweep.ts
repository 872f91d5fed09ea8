import { sweepUnfinished } from "@/lib/data/people/createShop";
import { sweepLetters } from "@/lib/data/people/letters";
import { sweepSignUps } from "@/lib/data/people/signUps";
import { sweepPhotos } from "@/lib/data/photos/sweep";
import { directory } from "@/lib/db/directory";
import { openShopNames } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { sweepLimits } from "@/lib/gate/limit";
import { log } from "@/lib/log/log";
import { folderStore } from "@/lib/outside/fileStore";

const EVERY_MS = 6 * 3_600_000;

/** A few times a day: counts, letters and sign-ups that are over, shops whose opening was cut off, long-removed photos and files that no photo names, of the shops in use. */
export function startSweeping(): void {
  const round = async () => {
    const now = new Date();
    await sweepLimits(now);
    await sweepLetters(now);
    await sweepSignUps(now);
    await sweepUnfinished(now);
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
    round().catch((cause: unknown) => log().error({ err: cause }, "Sweeping failed."));
  }, EVERY_MS).unref();
}
