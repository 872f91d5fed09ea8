import type { PrintedParty, SchemedId } from "../invoices/printedEinvoice";
import { Refusal } from "../refusal";
import { registerId, schemedId, taxIdOf } from "./identifiers";
import { placeOf } from "./places";

/** What people entered of a seller or a buyer. */
export interface EnteredParty {
  readonly street: string;
  readonly city: string;
  readonly postcode: string;
  readonly country: string;
  readonly registerNumber: string;
  /** Scheme and number of the electronic address; both empty: the register's number is the address too. */
  readonly scheme: string;
  readonly electronicAddress: string;
  readonly taxNumber: string;
}

/**
 * A party as an e-invoice says it. Where no register's number was entered, the tax number stands for it if it is one (an ABN, a
 * Norwegian organisation number); where no electronic address was, the register's number is it. What is no such number is left out,
 * and then missing.
 */
export function partyOf(entered: EnteredParty): PrintedParty {
  const { street, city, postcode, country, registerNumber, scheme, electronicAddress, taxNumber } = entered;
  const register = known(() => registerId(country, registerNumber || asRegister(country, taxNumber)));
  const address =
    electronicAddress === ""
      ? electronic(country, register)
      : known(() => schemedId(scheme, electronicAddress));
  return { street, city, postcode, country, register, taxId: taxIdOf(country, taxNumber), address };
}

/** The tax number where it is the register's number too. */
const asRegister = (country: string, taxNumber: string): string =>
  placeOf(country) && country !== "NZ" ? taxNumber : "";

/** The register's number as an electronic address, where its country has a scheme. */
function electronic(country: string, register: SchemedId | null): SchemedId | null {
  const place = placeOf(country);
  return place && register ? { scheme: place.scheme, id: register.id } : null;
}

function known(read: () => SchemedId): SchemedId | null {
  try {
    return read();
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
