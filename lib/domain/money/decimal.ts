import { Decimal as Base } from "decimal.js";

/**
 * Decimal arithmetic on the server: 60 significant digits, so that a product of safe integers is exact and a quotient is
 * never mistaken for a half. ROUND_HALF_UP of decimal.js rounds halves away from zero. What browsers reckon with as well is in
 * `exact.ts`, which brings no library along.
 */
export const Decimal = Base.clone({ precision: 60, rounding: Base.ROUND_HALF_UP });
export type Decimal = InstanceType<typeof Decimal>;
