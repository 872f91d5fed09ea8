import { readFileSync } from "node:fs";
import { join } from "node:path";
import { XmlDocument, XmlValidateError, XsdValidator } from "libxml2-wasm";
import { xmlRegisterFsInputProviders } from "libxml2-wasm/lib/nodejs.mjs";
import { registerCustomXPathFunction, Schema } from "node-schematron";
import { reference } from "./references";

/** The official checks of e-invoices; null where the artefacts are not beside the project. */
export const ARTEFACTS = reference("einvoice");

const path = (...parts: string[]) => join(ARTEFACTS ?? "", ...parts);

/** Functions that the PINT schematron defines in XSLT, which node-schematron cannot read: copied in meaning from its xsl:function. */
function registerFunctions(): void {
  const utils = (localName: string) => ({ localName, namespaceURI: "utils" });
  const digitsOf = (text: string) => [...text].map(Number);
  registerCustomXPathFunction(
    utils("slack"),
    ["xs:decimal?", "xs:decimal?", "xs:decimal?"],
    "xs:boolean",
    (_: unknown, expected: number | null, value: number | null, slack: number | null) =>
      // Decimals are floats here: what is compared has two digits, and a float's error is far below a tenth of that.
      expected !== null &&
      value !== null &&
      Math.abs(Number(expected) - Number(value)) <= Number(slack) + 1e-6,
  );
  registerCustomXPathFunction(
    utils("gln"),
    ["xs:string?"],
    "xs:boolean",
    (_: unknown, text: string | null) => {
      const digits = digitsOf(text ?? "").reverse();
      const [check, ...rest] = digits;
      return (
        (10 - (rest.reduce((sum, digit, at) => sum + digit * (at % 2 === 0 ? 3 : 1), 0) % 10)) % 10 === check
      );
    },
  );
  registerCustomXPathFunction(
    utils("mod11"),
    ["xs:string?"],
    "xs:boolean",
    (_: unknown, text: string | null) => {
      const [check, ...rest] = digitsOf(text ?? "").reverse();
      const sum = rest.reduce((total, digit, at) => total + digit * ((at % 6) + 2), 0);
      return Number(text) > 0 && (11 - (sum % 11)) % 11 === check;
    },
  );
  registerCustomXPathFunction(
    utils("abn"),
    ["xs:string?"],
    "xs:boolean",
    (_: unknown, text: string | null) => {
      const digits = digitsOf(text ?? "");
      const weights = [10, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19];
      return weights.reduce((sum, w, at) => sum + w * ((digits[at] ?? 0) - (at === 0 ? 1 : 0)), 0) % 89 === 0;
    },
  );
  // Belgian and Italian numbers: none of the documents here has one.
  for (const name of ["mod97-0208", "checkCodiceIPA", "checkCF", "checkPIVAseIT"])
    registerCustomXPathFunction(utils(name), ["xs:string?"], "xs:boolean", () => false);
}

/**
 * The same nodes, found sooner: node-schematron looks for a rule's context from every node of the document, where one that begins
 * at its root finds the same nodes each time.
 */
function askedOnce(context: string): string {
  const ways = context.split(/\|(?![^[]*\])/u).map((way) => way.trim());
  const absolute = ways.filter((way) => way.startsWith("/"));
  const rest = ways.filter((way) => !way.startsWith("/"));
  if (absolute.length === 0) return context;
  return [`self::document-node()/(${absolute.join(" | ")})`, ...rest].join(" | ");
}

const read = new Map<string, Schema>();

function schematron(file: string): Schema {
  const known = read.get(file);
  if (known) return known;
  if (read.size === 0) registerFunctions();
  const schema = Schema.fromString(readFileSync(path(file), "utf8"));
  for (const pattern of schema.patterns)
    for (const rule of pattern.rules) rule.context = askedOnce(rule.context);
  read.set(file, schema);
  return schema;
}

const EN = ["en16931/EN16931-UBL-validation-preprocessed.sch"];
const PINT = [
  "pint-anz/PINT-UBL-validation-preprocessed.sch",
  "pint-anz/PINT-jurisdiction-aligned-rules.sch",
];

/** Ids of the official rules that a document breaks, sorted; by the schematron of its own specification identifier. */
export function brokenRules(xml: string): string[] {
  const files = xml.includes("urn:peppol:pint:billing-1@aunz") ? PINT : EN;
  const results = files.flatMap((file) => schematron(file).validateString(xml));
  return [...new Set(results.map((result) => result.assertId ?? "(no id)"))].sort();
}

const validators = new Map<string, XsdValidator>();

/** Read once for all documents of a file. */
function validatorOf(kind: "Invoice" | "CreditNote"): XsdValidator {
  const known = validators.get(kind);
  if (known) return known;
  xmlRegisterFsInputProviders();
  const file = path("ubl21", "maindoc", `UBL-${kind}-2.1.xsd`);
  using schema = XmlDocument.fromBuffer(readFileSync(file), { url: file });
  const made = XsdValidator.fromDoc(schema);
  validators.set(kind, made);
  return made;
}

/** What UBL 2.1's schema finds wrong with a document; empty where it is valid. */
export function schemaFaults(xml: string): string[] {
  using document = XmlDocument.fromString(xml);
  try {
    validatorOf(/<(?:\w+:)?CreditNote\b/u.test(xml) ? "CreditNote" : "Invoice").validate(document);
    return [];
  } catch (cause) {
    if (!(cause instanceof XmlValidateError)) throw cause;
    return cause.message.trim().split("\n");
  }
}
