import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalText, hashOf } from "@/lib/data/common/hash";
import type { ShopHandle } from "@/lib/db/shop";
import { jsonOf } from "@/lib/schemas/fileIssues";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { twoShops } from "../support/shops";

/** How documents were written as text before RFC 8785: keys sorted, then laid out by JSON.stringify. */
function textBefore(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part !== null && typeof part === "object" && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

/** Every key in a value, however deep. */
function keysOf(value: unknown): string[] {
  if (value === null || typeof value !== "object") return [];
  const own = Array.isArray(value) ? [] : Object.keys(value);
  return [...own, ...Object.values(value).flatMap(keysOf)];
}

async function frozenDocuments(shop: ShopHandle) {
  await nameShop(shop);
  const invoice = await invoiceNow(shop, await issuedInvoice(shop, (await readyJob(shop)).jobId));
  const quotes = await shop.read.quoteRevision.findMany({
    where: { hash: { not: null } },
    select: { frozen: true, hash: true },
    orderBy: { id: "asc" },
  });
  expect(quotes).not.toEqual([]);
  return [...quotes, invoice];
}

describe("the canonical text of a document", () => {
  it("is the one that RFC 8785 prints for its own example", () => {
    // RFC 8785, section 3.2.2 (input) and 3.2.3 (output).
    const given = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(canonicalText(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  it("is to the byte what it was before RFC 8785, so that hashes kept with documents stand", () => {
    const key = fc
      .string({ unit: "grapheme", maxLength: 12 })
      .filter((k) => !/^\d+$/.test(k) && k !== "__proto__");
    const value = fc.letrec((tie) => ({
      any: fc.oneof(
        { maxDepth: 4 },
        fc.string({ unit: "grapheme" }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom(null, true, false, undefined),
        fc.array(tie("any"), { maxLength: 5 }),
        fc.dictionary(key, tie("any"), { maxKeys: 6 }),
      ),
    })).any;
    fc.assert(
      fc.property(fc.dictionary(key, value, { maxKeys: 6 }), (document) => {
        expect(canonicalText(document)).toBe(textBefore(document));
      }),
    );
  });

  it("keeps the hashes of quotes and invoices of both shops: none has a whole number for a key", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b])
      for (const { frozen, hash } of await frozenDocuments(shop)) {
        expect(hashOf(frozen)).toBe(hash);
        expect(canonicalText(frozen)).toBe(textBefore(frozen));
        expect(keysOf(frozen).filter((key) => /^\d+$/.test(key))).toEqual([]);
      }
  });

  it("is never asked of half a character: a package's file loses it when it is read", () => {
    const json = jsonOf(String.raw`{"name": "Bowl \ud83d", "\udc00": 1}`);
    expect(json).toEqual({ value: { name: "Bowl \ufffd", "\ufffd": 1 } });
    expect(() => canonicalText("value" in json ? json.value : undefined)).not.toThrow();
  });
});
