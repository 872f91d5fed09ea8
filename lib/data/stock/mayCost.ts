import type { ShopHandle } from "@/lib/db/shop";
import { may } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";

/** Refuses a cost given by someone who may not read costs: it moves the average, the margins and the next orders. */
export function demandMayCost(shop: ShopHandle, given: number | null | undefined, field = "cost"): void {
  const { role } = shop.by;
  if (given === undefined || given === null || role === "system") return;
  if (role !== "customer" && may(role, "margin.read")) return;
  throw new Refusal(
    "Your role may not see costs, so it does not set any. Nothing was changed.",
    "Leave the cost empty: what was ordered, or the cost known so far, counts. An owner can set another.",
    { [field]: "Leave this empty." },
    "forbidden",
  );
}
