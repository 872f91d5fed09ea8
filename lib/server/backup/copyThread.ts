import type { AskedCopy } from "./copyAll";
import { type Copied, copyShop } from "./copyShop";

/** What a thread of a backup does: one shop. */
export default function copy({ shop, folder, before }: AskedCopy): Promise<Copied> {
  return copyShop(shop, folder, before);
}
