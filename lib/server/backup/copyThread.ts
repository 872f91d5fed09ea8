import { type Copied, copyShop } from "./copyShop";

export interface AskedCopy {
  readonly shop: { readonly slug: string; readonly database: string };
  readonly folder: string;
  readonly before: string | null;
}

/** What a thread of a backup does: one shop. */
export default function copy({ shop, folder, before }: AskedCopy): Promise<Copied> {
  return copyShop(shop, folder, before);
}
