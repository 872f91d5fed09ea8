import { findForSale } from "@/lib/data/sales/parts";
import { sell } from "@/lib/data/sales/sell";
import type { Stage } from "../stage";
import type { Method } from "./money";

/** Parts sold to somebody who walked in, at their list prices; answers the sale. `givenMinor` is what they gave in cash. */
export async function sellOver(
  stage: Stage,
  when: Date,
  wanted: readonly (readonly [code: string, pieces: number])[],
  method: Method,
  givenMinor: number | null = null,
): Promise<number> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const lines = await Promise.all(
    wanted.map(async ([code, pieces]) => {
      const [part] = await findForSale(shop, code);
      if (!part?.priceE4) throw new Error(`There is no ${code} with a price.`);
      return { partId: part.id, quantity: pieces * 1000, price: part.priceE4, discount: 0 };
    }),
  );
  return sell(shop, {
    lines,
    discount: 0,
    discountWhy: "",
    paper: "receipt",
    method,
    givenMinor,
    customerId: undefined,
  });
}
