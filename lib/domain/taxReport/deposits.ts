import { taxRegime } from "../tax/rates";
import type { RegimeKey } from "../tax/regimes";

/** When the tax in a deposit falls due: as the money comes, or with the invoice that takes it off. */
export type DepositsDue = "received" | "invoiced";

interface DepositRule {
  readonly due: DepositsDue;
  readonly source: string;
}

const RULES: Readonly<Record<RegimeKey, DepositRule>> = {
  au: {
    due: "received",
    source:
      "GST Act 1999 s 29-5: any consideration received attributes it, Division 99 leaves out deposits held as security; from memory",
  },
  nz: {
    due: "received",
    source: "Goods and Services Tax Act 1985 s 9(1): the earlier of invoice and any payment; from memory",
  },
  gb: {
    due: "received",
    source:
      "Value Added Tax Act 1994 s 6(4): a payment before the invoice makes a tax point for its amount; from memory",
  },
  no: {
    due: "invoiced",
    source:
      "Merverdiavgiftsloven § 15-9: the period in which the sale is documented; bokføringsforskriften § 5-2-7 limits invoicing in advance; from memory",
  },
  eu: { due: "received", source: "Directive 2006/112/EC art. 65: payments on account; from memory" },
  us: { due: "invoiced", source: "Common practice: sales tax is due with the sale; states differ" },
  entered: { due: "invoiced", source: "Common practice, no source" },
  none: { due: "invoiced", source: "No tax is charged" },
};

/** When the tax in deposits falls due under a regime, with its source; to be confirmed by the shop's accountant. Throws Refusal for an unknown regime. */
export function depositsRule(regimeKey: string): DepositRule {
  return RULES[taxRegime(regimeKey).key];
}
