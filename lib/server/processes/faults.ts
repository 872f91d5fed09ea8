import { closeShop } from "@/lib/db/shop";
import { type ShopFault, takeFault } from "@/lib/db/shopFaults";
import { log } from "@/lib/log/log";

/** Another process found a shop damaged: nobody opens it here either. */
export function heedFault(fault: ShopFault): void {
  takeFault(fault);
  closeShop(fault.database).catch((cause: unknown) =>
    log().warn({ database: fault.database, err: cause }, "Closing a shop that is shut failed."),
  );
}
