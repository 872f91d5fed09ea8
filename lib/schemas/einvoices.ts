import { z } from "zod";
import { registerId, schemedId } from "@/lib/domain/einvoice/identifiers";
import { PLACES } from "@/lib/domain/einvoice/places";
import { ADDRESS_SCHEMES } from "@/lib/domain/einvoice/schemes";
import { Refusal } from "@/lib/domain/refusal";
import { recordId } from "./ids";
import { seenVersion, shortText } from "./typedNumber";

const ticked = z
  .string()
  .optional()
  .transform((sent) => sent === "on");

const PARTY = {
  on: ticked,
  street: shortText(120, "The street"),
  city: shortText(80, "The town"),
  postcode: shortText(20, "The postcode"),
  registerNumber: shortText(40, "The number"),
  scheme: z.enum(["", ...ADDRESS_SCHEMES.map((scheme) => scheme.code)], "Choose one of these.").default(""),
  electronicAddress: shortText(60, "The electronic address"),
};

interface Numbers {
  readonly country: string;
  readonly registerNumber: string;
  readonly scheme: string;
  readonly electronicAddress: string;
}

/** Says at its field that a number is wrong. */
function checkNumbers(
  { country, registerNumber, scheme, electronicAddress }: Numbers,
  context: z.core.$RefinementCtx,
): void {
  const check = (path: string, run: () => unknown) => {
    try {
      run();
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      context.addIssue({ code: "custom", path: [path], message: `${cause.message} ${cause.remedy}`.trim() });
    }
  };
  if (registerNumber !== "") check("registerNumber", () => registerId(country, registerNumber));
  if (electronicAddress !== "" && scheme === "")
    context.addIssue({ code: "custom", path: ["scheme"], message: "Choose which kind of address this is." });
  if (electronicAddress === "" && scheme !== "")
    context.addIssue({
      code: "custom",
      path: ["electronicAddress"],
      message: "Enter the address, or choose that it is the number above.",
    });
  if (electronicAddress !== "" && scheme !== "")
    check("electronicAddress", () => schemedId(scheme, electronicAddress));
}

/** What the shop's e-invoices say of it, for a shop in `country`. */
export const EinvoiceSellerSchema = z
  .object({ ...seenVersion, country: z.string().max(2), ...PARTY })
  .superRefine(checkNumbers);
export type EinvoiceSellerInput = z.output<typeof EinvoiceSellerSchema>;

/** A customer's e-invoices. */
export const EinvoiceBuyerSchema = z
  .object({
    customerId: recordId,
    ...seenVersion,
    country: z.enum(
      PLACES.map((place) => place.country),
      "Choose the country.",
    ),
    reference: shortText(80, "The reference"),
    ...PARTY,
  })
  .superRefine(checkNumbers);
export type EinvoiceBuyerInput = z.output<typeof EinvoiceBuyerSchema>;

/** The customer's own order number of a draft. */
export const EinvoiceOrderSchema = z.object({ id: recordId, number: shortText(80, "The order number") });
export type EinvoiceOrderInput = z.output<typeof EinvoiceOrderSchema>;
