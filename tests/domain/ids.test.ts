import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formId, idIn, recordId } from "@/lib/schemas/ids";

describe("an id in an address", () => {
  it.each([
    "1e3",
    "0x1",
    "-1",
    "+1",
    "01",
    "0",
    "1.0",
    " 1",
    "1 ",
    "",
    "one",
    "9999999999999",
    "2147483648",
    "１",
  ])("is not %j", (text) => {
    expect(idIn(text)).toBeNull();
    expect(recordId.safeParse(text).success).toBe(false);
  });

  it("is none where the address says it twice or not at all", () => {
    expect([idIn(["1", "2"]), idIn(undefined), idIn(null), idIn(1)]).toEqual([null, null, null, null]);
  });

  it("is every number a database keeps, as it is written", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2_147_483_647 }), (id) => {
        expect(idIn(String(id))).toBe(id);
      }),
    );
  });
});

describe("an id in a form", () => {
  it("goes no further than a database's ids, and is refused with words for the field", () => {
    expect(formId().parse("2147483647")).toBe(2_147_483_647);
    for (const wrong of ["2147483648", "0", "-1", "1.5", "x", ""]) {
      const read = formId("Choose one.").safeParse(wrong);
      expect(read.error?.issues[0]?.message).toBe("Choose one.");
    }
  });
});
