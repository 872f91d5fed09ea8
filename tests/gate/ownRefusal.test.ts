import { describe, expect, it } from "vitest";
import { Asking, Refusal } from "@/lib/domain/refusal";
import { ownRefusal } from "@/lib/gate/handle";

// @ts-expect-error As the server has it beside a built page: the same module once more, with classes of its own.
const copy: typeof import("@/lib/domain/refusal") = await import("@/lib/domain/refusal?copy");

describe("a refusal of a shop that the server opened", () => {
  it("reaches a page as a refusal of its own, with all that it says", () => {
    const theirs = new copy.Refusal("The shop's database is busy.", "Try again.", { name: "x" }, "busy");
    expect(theirs).not.toBeInstanceOf(Refusal);
    const ours = ownRefusal(theirs);
    expect(ours).toBeInstanceOf(Refusal);
    expect(ours).toMatchObject({
      message: "The shop's database is busy.",
      remedy: "Try again.",
      fields: { name: "x" },
      kind: "busy",
    });
  });

  it("is told from a page's own, which stays as it is, and from every other failure", () => {
    for (const cause of [new Asking("Again?", "", []), new Refusal("No."), new Error("broken"), null, "x"])
      expect(ownRefusal(cause)).toBe(cause);
  });
});
