import { describe, expect, it } from "vitest";
import { Asking, Refusal } from "@/lib/domain/refusal";

// @ts-expect-error As a built page has it: the same module once more, with classes of its own.
const copy: typeof import("@/lib/domain/refusal") = await import("@/lib/domain/refusal?copy");

describe("a refusal", () => {
  it("is one in every copy of its module, since the server and the pages of one process have a copy each", () => {
    expect(copy.Refusal).not.toBe(Refusal);
    expect(new copy.Refusal("The shop's database is busy.")).toBeInstanceOf(Refusal);
    expect(new Refusal("The shop's database is busy.")).toBeInstanceOf(copy.Refusal);
    expect(new copy.Asking("Again?", "", [])).toBeInstanceOf(Refusal);
  });

  it("is told from every other failure, and from each kind of refusal", () => {
    expect(new Error("Refusal")).not.toBeInstanceOf(Refusal);
    expect({ name: "Refusal" }).not.toBeInstanceOf(Refusal);
    expect(null).not.toBeInstanceOf(Refusal);
    expect(new Refusal("No.")).not.toBeInstanceOf(Asking);
    expect(new Asking("Again?", "", [])).toBeInstanceOf(Asking);
  });
});
