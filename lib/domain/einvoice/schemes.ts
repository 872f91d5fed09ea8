import { PLACES } from "./places";

/** A kind of electronic address: its code of the EAS list, and how a form names it. */
export interface AddressScheme {
  readonly code: string;
  readonly name: string;
}

/** Kinds that are no country's own. */
const OTHERS: readonly AddressScheme[] = [
  { code: "0060", name: "D-U-N-S number" },
  { code: "EM", name: "E-mail address" },
];

/** The kinds of electronic address that can be chosen. 0088 is both New Zealand's NZBN and any other GLN. Source: as PLACES. */
export const ADDRESS_SCHEMES: readonly AddressScheme[] = [
  ...PLACES.map(({ scheme, number, name, country }) => ({
    code: scheme,
    name: country === "NZ" ? "GLN, or NZBN of New Zealand" : `${number}, ${name}`,
  })),
  ...OTHERS,
];
