import { describe, expect, it } from "vitest";
import { senderGaps } from "@/lib/domain/invoices/senderGaps";

const WHOLE = {
  address: "4 Gauge Street\nSaltpan",
  phone: "555 0100",
  email: "desk@example.com",
  taxNumber: "51 824 753 556",
  taxRegime: "au",
  country: "AU",
};

describe("the head of a shop's papers", () => {
  it("lacks nothing where all is entered, and names what is not in the order that it stands there", () => {
    expect(senderGaps(WHOLE)).toEqual([]);
    expect(senderGaps({ ...WHOLE, address: " ", phone: "", email: "", taxNumber: "" })).toEqual([
      "the address",
      "a phone number",
      "a mail address",
      "the ABN",
    ]);
    expect(senderGaps({ ...WHOLE, email: "" })).toEqual(["a mail address"]);
  });

  it("needs no number where no tax is charged", () => {
    expect(senderGaps({ ...WHOLE, taxNumber: "", taxRegime: "none" })).toEqual([]);
    expect(senderGaps({ ...WHOLE, taxNumber: "", taxRegime: "no", country: "NO" })).toEqual([
      "the organisation number",
    ]);
  });
});
