import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frozenOf, storedInvoice } from "@/lib/data/documents/invoice";
import { withoutPerson } from "@/lib/data/erasing/minimised";
import { invoiceSample, receiptSample, twoJobsSample } from "../documents/samples";
import { FULL } from "../support/size";

/** Everything of a document but the words that may name somebody. */
function figuresOf(value: unknown): unknown {
  if (typeof value !== "object" || value === null) return typeof value === "string" ? null : value;
  if (Array.isArray(value)) return value.map(figuresOf);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== "buyer")
      .map(([key, one]) => [
        key,
        /On$|^(kind|currency|unit|number|written|key)$/.test(key) ? one : figuresOf(one),
      ]),
  );
}

const papers = [invoiceSample("AU", 3), invoiceSample("NO", 2), twoJobsSample("NO"), receiptSample("AU")];
/** Names that stand in documents for something else too. */
const names = fc.oneof(
  fc.constantFrom(
    "invoice",
    "labour",
    "10000",
    "2026-11-25",
    "Main jet",
    "each and every",
    "Saltpan",
    "null",
    '"quoted"',
  ),
  fc.string({ minLength: 1, maxLength: 30 }),
);

describe("a document whose time is over", () => {
  it("keeps its sums, tax, numbers and days whatever its buyer was called, and says who it was for no more", () => {
    fc.assert(
      fc.property(fc.constantFrom(...papers), names, names, names, (paper, name, address, plate) => {
        const frozen = frozenOf({
          ...paper,
          title: `For ${name}`,
          buyer: { ...paper.buyer, name, address, taxNumber: "SYN 551 779" },
          jobs: paper.jobs.map((job) => ({ ...job, bike: { ...job.bike, plate } })),
        });
        const before = structuredClone(frozen);
        const after = storedInvoice(withoutPerson(frozen, 7));
        expect(frozen).toEqual(before);
        expect(figuresOf(after)).toEqual(figuresOf(frozen));
        expect(after.seller).toEqual(frozen.seller);
        expect(after.buyer).toMatchObject({ name: "Erased customer 7", address: "", taxNumber: "" });
        expect(after.jobs.every((job) => job.bike.plate === "" && job.bike.frameNumber === "")).toBe(true);
        // A second time changes nothing more.
        expect(withoutPerson(after, 7)).toEqual(after);
      }),
      { numRuns: FULL ? 2_000 : 150 },
    );
  });

  it("names them nowhere else either: in its title, its lines and its note", () => {
    const paper = invoiceSample("NO", 2);
    const frozen = frozenOf({
      ...paper,
      title: "Slides for Runa Brekkemoen",
      note: "Runa Brekkemoen, QZ 91847, collects it",
      lines: paper.lines.map((line) => ({ ...line, name: `${line.name} (RUNA: runa brekkemoen)` })),
      buyer: { ...paper.buyer, name: "Runa Brekkemoen" },
      jobs: paper.jobs.map((job) => ({ ...job, bike: { ...job.bike, plate: "QZ 91847" } })),
    });
    expect(JSON.stringify(withoutPerson(frozen, 7))).not.toMatch(/brekkemoen|91847/i);
  });
});
