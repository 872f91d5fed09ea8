import { describe, expect, it } from "vitest";
import { SellSchema } from "@/lib/schemas/sales";
import { PRICE_E4, typedQuantity, typedScaled, typedShare } from "@/lib/schemas/typedFigures";

const sold = (line: { quantity: string; price: string; discount: string }) =>
  SellSchema.safeParse({ lines: { 0: { partId: "1", ...line } }, method: "cash" });

describe("a line typed over the counter", () => {
  it("is read alike by the page that adds it up and by the server that sells it", () => {
    const quantities = ["1", "2.5", "0,125", "", "0", "-1", "1e3", "1".repeat(41), " 3 "];
    const prices = ["4.80", "4,8", "0.0125", "1,234.50", "12345678.1234", "123456789", " 7 ", "x"];
    const shares = ["", "10", "7.5", "7,25", "100", "100.01", "1000", "-5", "a"];
    for (const quantity of quantities)
      for (const price of prices)
        for (const discount of shares) {
          const [count, each, off] = [
            typedQuantity(quantity),
            typedScaled(price, PRICE_E4),
            typedShare(discount),
          ];
          const parsed = sold({ quantity, price, discount });
          const fine = "value" in count && "value" in each && "value" in off;
          expect(parsed.success, `${quantity} | ${price} | ${discount}`).toBe(fine);
          if (!fine || !parsed.success) continue;
          const [line] = parsed.data.lines;
          expect([line?.quantity, line?.price, line?.discount]).toEqual([count.value, each.value, off.value]);
        }
  });

  it("says what is wrong in the same words on both sides", () => {
    for (const [line, words] of [
      [{ quantity: "none", price: "1", discount: "" }, "Enter a number above 0, such as 3 or 12.5."],
      [{ quantity: "1", price: "x", discount: "" }, PRICE_E4.message],
      [{ quantity: "1", price: "1", discount: "100.5" }, "At most 100 %."],
    ] as const)
      expect(sold(line).error?.issues[0]?.message).toBe(words);
  });
});
