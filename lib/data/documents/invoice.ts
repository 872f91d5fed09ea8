import type { PrintedInvoice } from "@/lib/domain/invoices/printed";

/** An issued document as it is kept: all that it prints, unchanged for good. */
export interface FrozenInvoice extends PrintedInvoice {
  readonly format: "throttlewright-invoice";
  readonly version: 1;
}

export function frozenOf(printed: PrintedInvoice): FrozenInvoice {
  return { format: "throttlewright-invoice", version: 1, ...printed };
}

/** An issued document out of the database; only issuing and crediting write there. */
export function storedInvoice(json: unknown): FrozenInvoice {
  const found = json as FrozenInvoice | null;
  if (found?.format !== "throttlewright-invoice") throw new Error("This is not an issued document.");
  return found;
}
