import { senderIn } from "@/lib/data/shop/sender";
import { dayText } from "@/lib/documents/format";
import { Refusal } from "@/lib/domain/refusal";
import type { OpenShop } from "@/lib/gate/open";
import { file } from "@/lib/gate/route";
import { idIn } from "@/lib/schemas/ids";

/** The record's id of an address; a wrong one is a record that is not there. */
export function idOf(params: Record<string, string>): number {
  const id = idIn(params.id);
  if (id === null) throw missing();
  return id;
}

export const missing = () => new Refusal("Not found.", "", {}, "missing");

export const pdfFile = (body: Uint8Array, name: string) => file(body, "application/pdf", `${name}.pdf`, true);

/** What a paper needs of the shop that is not frozen in the document itself. */
export const onPaper = (shop: OpenShop) => senderIn(shop.read);

export const dayOn = (shop: OpenShop, day: string) => dayText(day, shop.settings.locale);
