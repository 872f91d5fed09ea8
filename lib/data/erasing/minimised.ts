import type { Replaced } from "@/lib/db/withoutGuards";
import { cleaned, erasedName, writtenAs } from "./known";

type Json = Readonly<Record<string, unknown>>;

/** Whose parts of a document are the shop's own. */
const OWN = new Set(["seller", "shop", "payTo", "ask", "rule"]);
/** What says of what kind something is: a name that reads the same must not change it. */
const KINDS = new Set(
  "format kind basis unit category currency locale country taxRegime method tier profile scheme key form number written day".split(
    " ",
  ),
);

const isKind = (key: string) => KINDS.has(key) || /On$|At$/.test(key);

const isJson = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const textAt = (of: Json, name: string) => (typeof of[name] === "string" ? (of[name] as string) : "");
const emptied = (of: unknown, names: readonly string[]) =>
  isJson(of)
    ? { ...of, ...Object.fromEntries(names.filter((name) => name in of).map((name) => [name, ""])) }
    : of;

/**
 * A frozen document without the person: sums, tax, numbers, days and the work stay to the letter. Who it was for is “Erased customer N”,
 * plates and frame numbers are gone, and so is every place where a text of it names them.
 */
export function withoutPerson(frozen: unknown, customerId: number): unknown {
  if (!isJson(frozen)) return frozen;
  const texts = namesIn(frozen, customerId);
  const next: Record<string, unknown> = { ...(cleanedDocument(frozen, texts) as Json) };
  for (const key of ["buyer", "customer"])
    if (isJson(next[key]))
      next[key] = { ...(emptied(next[key], ["address", "taxNumber"]) as Json), name: erasedName(customerId) };
  const bare = (bike: unknown) => emptied(bike, ["plate", "frameNumber"]);
  if (next.bike) next.bike = bare(next.bike);
  if (Array.isArray(next.jobs))
    next.jobs = next.jobs.map((job) => (isJson(job) ? { ...job, bike: bare(job.bike) } : job));
  if (next.format === "throttlewright-reminder") next.words = "";
  if (isJson(next.einvoice)) {
    const party = emptied(next.einvoice.buyer, ["street", "city", "postcode", "taxId"]);
    next.einvoice = {
      ...(emptied(next.einvoice, ["buyerReference", "orderNumber"]) as Json),
      buyer: isJson(party) ? { ...party, register: null, address: null } : party,
    };
  }
  return next;
}

/** How a document writes the person and their bikes; what the shop is written as too is left out. */
export function namesIn(frozen: unknown, customerId: number): Replaced[] {
  if (!isJson(frozen)) return [];
  const parties = [frozen.buyer, frozen.customer].filter(isJson);
  const jobs = Array.isArray(frozen.jobs) ? frozen.jobs.filter(isJson).map((job) => job.bike) : [];
  const known = parties.map((one) => ({
    name: textAt(one, "name"),
    address: textAt(one, "address"),
    taxNumber: textAt(one, "taxNumber"),
  }));
  const bikes = [frozen.bike, ...jobs]
    .filter(isJson)
    .map((one) => ({ plate: textAt(one, "plate"), frameNumber: textAt(one, "frameNumber") }));
  const own = JSON.stringify([...OWN].map((key) => frozen[key] ?? null)).toLowerCase();
  return writtenAs(customerId, known, bikes).filter(({ from }) => !own.includes(from.toLowerCase()));
}

function cleanedDocument(value: unknown, texts: readonly Replaced[]): unknown {
  if (typeof value === "string") return cleaned(value, texts);
  if (Array.isArray(value)) return value.map((one) => cleanedDocument(one, texts));
  if (!isJson(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [
      key,
      OWN.has(key) || (isKind(key) && typeof one === "string") ? one : cleanedDocument(one, texts),
    ]),
  );
}
