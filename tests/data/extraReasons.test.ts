import { describe, expect, it } from "vitest";
import { extraReason } from "@/lib/data/quotes/extraReasons";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { BREATHING } from "../support/quotes";

const option = (key: string, group: string): Option => ({
  ...(BREATHING.options[0] as Option),
  key,
  group,
  name: `Option ${key}`,
});
const recipe: Pick<Recipe, "options" | "groups" | "rules"> = {
  groups: [
    { key: "one", name: "Airbox", choose: "at most one" },
    { key: "any", name: "Care", choose: "any" },
  ],
  options: [
    option("a", "one"),
    option("b", "one"),
    option("c", "any"),
    option("d", "any"),
    option("e", "any"),
  ],
  rules: [
    { kind: "excludes", option: "c", other: "d", why: "De får ikke plass sammen." },
    { kind: "needs", option: "e", anyOf: ["a", "c"], why: "Den trenger luft." },
  ],
};
const why = (chosen: readonly string[], key: string, locale: string) =>
  extraReason(recipe, chosen, key, locale);

describe("why an extra cannot be added beside what is chosen", () => {
  it("is said in the customer's language, with the other's name and the shop's own reason, whichever side the rule is on", () => {
    expect(why(["c"], "d", "nb-NO")).toBe("Det går ikke sammen med Option c. De får ikke plass sammen.");
    expect(why(["d"], "c", "en-NO")).toBe("It does not go with Option d. De får ikke plass sammen.");
    expect(why(["b"], "e", "nb-NO")).toBe("Det krever Option a eller Option c. Den trenger luft.");
  });

  it("names the group that takes only one, and is general where no single rule says it", () => {
    expect(why(["a"], "b", "nb-NO")).toBe("Bare én kan velges under Airbox: nå er det Option a.");
    expect(why(["a"], "c", "nb-NO")).toBe("Det går ikke sammen med det du valgte nå.");
    expect(why(["a"], "c", "en-AU")).toBe("It does not go with what you chose now.");
  });
});
