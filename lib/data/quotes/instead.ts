import type { ShopHandle } from "@/lib/db/shop";
import type { QuotePart } from "@/lib/domain/quoting/partsWanted";
import { sameThreadFor } from "../stock/sameThread";

/** What other drawers have for the jets that a quote is short of, by the code of its part. */
export const insteadOfShort = (shop: ShopHandle, parts: readonly QuotePart[]) =>
  sameThreadFor(
    shop.read,
    parts
      .filter((part) => part.shortMilli > 0 && part.setting !== null && part.size !== null)
      .map(({ code, partId, size, unsettled, quantityMilli }) => ({
        key: code,
        partId,
        neededMilli: quantityMilli,
        ...(size === null ? {} : { size }),
        ...(unsettled ? { family: unsettled.family } : {}),
      })),
  );
