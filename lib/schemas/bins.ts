import { fetchOrder, type Lying } from "@/lib/domain/stock/bins";
import { quantityText } from "./quantity";

/** A part with its usual bin and where it lies. */
export interface Placed {
  readonly unit: string;
  /** Its usual bin; empty for none. */
  readonly bin: string;
  readonly bins: readonly Lying[];
}

/** Where to fetch a part: "bin A1", or "bin A1 (2), bin B2 (5)" where it lies in several, the usual one first. */
export function fetchText(part: Placed): string {
  const order = fetchOrder(part.bins, part.bin);
  if (order.length === 1) return order[0]?.bin ? `bin ${order[0].bin}` : "";
  return order
    .map((one) => `${one.bin ? `bin ${one.bin}` : "no bin"} (${quantityText(one.onHandMilli, part.unit)})`)
    .join(", ");
}

/** What to say beside a part's usual bin where it lies elsewhere: "also 2 in B2", "lies in B2"; nothing where it does not. */
export function elsewhereText(part: Placed): string {
  const order = fetchOrder(part.bins, part.bin);
  const away = order.filter((one) => one.bin !== part.bin);
  if (away.length === 0) return "";
  const names =
    away.length > 2
      ? `in ${away.length} other bins`
      : away.map((one) => `${quantityText(one.onHandMilli, part.unit)} in ${one.bin || "no bin"}`).join(", ");
  return away.length === order.length ? `lies: ${names}` : `also ${names}`;
}
