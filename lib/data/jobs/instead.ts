import type { ShopHandle } from "@/lib/db/shop";
import { sameThreadFor } from "../stock/sameThread";

interface Short {
  readonly id: number;
  readonly shortMilli: number;
  readonly part: { readonly id: number };
}

/** What other drawers have for the jets that a job is short of, by the reservation. */
export const insteadOfMissing = (shop: ShopHandle, reservations: readonly Short[]) =>
  sameThreadFor(
    shop.read,
    reservations
      .filter((one) => one.shortMilli > 0)
      .map(({ id, shortMilli, part }) => ({ key: String(id), partId: part.id, neededMilli: shortMilli })),
  );
