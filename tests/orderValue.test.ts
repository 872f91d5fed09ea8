import { describe, expect, it } from "vitest";
import { inOrder, orderValue } from "@/app/_ui/orderValue";

describe("a cell that a list is ordered by", () => {
  it("is its amount, its figure or its first line, and nothing where it is empty", () => {
    expect(orderValue({ minor: 1250, currency: "AUD" })).toBe(1250);
    expect(orderValue(7)).toBe(7);
    expect(orderValue({ text: "Job 12", sub: "A look" })).toBe("Job 12");
    expect(orderValue({ shape: "circle", word: "draft" })).toBe("draft");
    for (const empty of [null, undefined, ""]) expect(orderValue(empty)).toBeUndefined();
  });

  it("stands by size where it is a number, and as a reader looks it up where it is text", () => {
    expect([10, -2, 9].sort(inOrder("en"))).toEqual([-2, 9, 10]);
    expect(["Job 12", "Job 9", "Åsgard", "Zephyr"].sort(inOrder("en"))).toEqual([
      "Åsgard",
      "Job 9",
      "Job 12",
      "Zephyr",
    ]);
    // In Norwegian å is the last letter. Source: Unicode CLDR, collation of nb.
    expect(["Åsgard", "Zephyr"].sort(inOrder("nb"))).toEqual(["Zephyr", "Åsgard"]);
  });
});
