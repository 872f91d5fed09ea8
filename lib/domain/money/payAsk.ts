import { type Account, type AccountRowName, accountRows } from "./account";
import { epcCode, ibanIn } from "./epcCode";

/** An account with what a payment to it is recognised by, as a paper prints both. */
export interface PayTo extends Account {
  /** The paper's number as it is written, or a KID. */
  readonly reference: string;
  /** The reference is a KID, which a bank checks. */
  readonly kid: boolean;
}

/** How some money is asked for. */
export interface PayAsk {
  /** Null where the shop has entered no account in fields. */
  readonly payTo: PayTo | null;
  readonly reference: string;
  /** What the shop says besides, in its own words; before there were fields, its account. */
  readonly note: string;
  /** The shop's name, for the payee where no account says one. */
  readonly name: string;
}

export type PayRowName = AccountRowName | "reference" | "kid";

/** The lines that tell where to pay and with which reference; the reference is the last. */
export function payRows({
  payTo,
  reference,
}: PayAsk): { readonly name: PayRowName; readonly value: string }[] {
  return [
    ...(payTo ? accountRows(payTo) : []),
    { name: payTo?.kid ? "kid" : "reference", value: payTo?.reference ?? reference },
  ];
}

/** The text of a QR code for paying this; null where the currency or the account allows none. Amount in minor units. */
export function payCode(ask: PayAsk, currency: string, amountMinor: number): string | null {
  const { payTo, note, name, reference } = ask;
  const iban = payTo ? payTo.iban : ibanIn(note);
  if (!iban) return null;
  return epcCode({
    name: payTo?.holder || name,
    iban,
    bic: payTo?.bic ?? "",
    currency,
    amountMinor,
    reference: payTo?.reference ?? reference,
  });
}
