import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { composeWorks } from "@/lib/domain/quoting/composeWorks";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts, QuotePartRow } from "@/lib/domain/quoting/facts";
import { ROAD } from "../support/roadPackage";
import { FACTS, HOME } from "./quoteFacts";
import { AS_FOUND } from "./tuning-demo";

const subsets = fc.subarray(ROAD.options.map((option) => option.key));

describe("the quote engine", () => {
  it("prices one option by hand: 27 min at 90.00, a filter at cost and half, 1.5 ml at 1.00", () => {
    const quote = computeQuote(FACTS);
    // Breather 6 min with the seat's 9 + 12 min: 40.50. Filter 10.00 x 1.5 = 15.00. Threadlocker 1.5 x 1.00 = 1.50.
    expect(quote.plan.minutes).toBe(27);
    expect(quote.price.grossMinor).toBe(5_700);
    expect(quote.depositMinor).toBe(1_425);
    expect(quote.parts.map(({ code, quantityMilli }) => [code, quantityMilli])).toEqual([
      ["BF-20", 1000],
      ["TL-M", 1500],
    ]);
    expect(quote.target).toEqual({ sheet: null, trouble: null });
    expect(quote.sendable).toBe(true);
  });

  it("opens once for all work that needs it, and tells no saving of one package by itself", () => {
    const both = computeQuote({ ...FACTS, choices: ["cut", "breather"] });
    const [cut, breather] = ["cut", "breather"].map((key) => computeQuote({ ...FACTS, choices: [key] }));
    // The seat is opened and closed once for both, 21 minutes at 90.00 an hour: nobody would do them on two visits.
    expect((cut?.price.grossMinor ?? 0) + (breather?.price.grossMinor ?? 0) - both.price.grossMinor).toBe(
      3_150,
    );
    expect([both.savedMinutes, both.savedMinor]).toEqual([0, 0]);
  });

  it("tells what one visit saves against a visit for each of its works, as their prices by themselves say", () => {
    const work = (key: string) => ({ kind: "package" as const, key, name: key, recipe: FACTS.recipe });
    const facts = (keys: readonly string[]) => {
      const { recipe, works } = composeWorks(keys.map(work));
      return { ...FACTS, recipe, works };
    };
    const both = computeQuote({ ...facts(["a", "b"]), choices: ["a:cut", "b:breather"] });
    const [cut, breather] = [
      computeQuote({ ...facts(["a"]), choices: ["a:cut"] }),
      computeQuote({ ...facts(["b"]), choices: ["b:breather"] }),
    ];
    expect(both.savedMinutes).toBe(21);
    expect(both.savedMinutes).toBe(cut.plan.minutes + breather.plan.minutes - both.plan.minutes);
    expect(both.price.grossMinor).toBe(cut.price.grossMinor + breather.price.grossMinor - both.savedMinor);
  });

  it("tells what a variation saves against a visit of its own, while the job has the bike open", () => {
    const alone = computeQuote({ ...FACTS, choices: ["breather"] });
    const [opening] = FACTS.recipe.accesses.filter((one) => alone.plan.steps.some((s) => s.key === one.key));
    const within = computeQuote({ ...FACTS, choices: ["breather"], openings: [opening?.name ?? ""] });
    expect(within.savedMinutes).toBe((opening?.openMinutes ?? 0) + (opening?.closeMinutes ?? 0));
    expect(within.plan.minutes).toBe(alone.plan.minutes - within.savedMinutes);
  });

  it("takes a jet of the size that the settings come to, thinner air a smaller one", () => {
    const sized = (altitudeM: number) =>
      computeQuote({ ...FACTS, choices: ["cut", "jet"], conditions: { ...HOME, altitudeM } });
    const [low, high] = [sized(400), sized(2_600)];
    const [jet] = low.parts.filter((p) => p.setting === "mainJet");
    expect(jet?.code).toBe(`RM-${jet?.size}`);
    expect(jet?.size).toBe(low.target.sheet?.carburettors[0]?.mainJet?.chosen.size);
    const there = high.target.sheet?.carburettors[0]?.mainJet?.chosen.size ?? 0;
    expect(there).toBeLessThan(jet?.size ?? 0);
    expect(low.acknowledgements).toEqual(["starting-point"]);
  });

  it("says where an option takes its jets from another drawer than the model card names", () => {
    const said = (drawers: Record<"mainJet" | "pilotJet", string>, choices = ["cut", "jet"]) =>
      computeQuote({ ...FACTS, choices, drawers }).warnings.filter((one) =>
        one.message.includes("the model card says"),
      );
    expect(
      said({ mainJet: "Hex main", pilotJet: "Hex pilot" }).map(({ message, stops }) => [message, stops]),
    ).toEqual([
      [expect.stringContaining("main jets of “Round main”; the model card says “Hex main”"), false],
    ]);
    expect(said({ mainJet: "Round main", pilotJet: "Hex pilot" })).toEqual([]);
    expect(said({ mainJet: "", pilotJet: "" })).toEqual([]);
    expect(said({ mainJet: "Hex main", pilotJet: "" }, ["cut"])).toEqual([]);
  });

  it("tells what stands against a quote instead of throwing, and does not let it be sent", () => {
    const nothing = computeQuote({ ...FACTS, choices: [] });
    expect(nothing.sendable).toBe(false);
    const strange = computeQuote({ ...FACTS, choices: ["breather", "no such option"] });
    expect(strange.price.grossMinor).toBe(computeQuote(FACTS).price.grossMinor);
    const rateless = computeQuote({ ...FACTS, choices: ["jet"], grades: FACTS.grades.slice(0, 1) });
    expect(rateless.warnings.filter((w) => w.stops).map((w) => w.message)).toEqual([
      expect.stringContaining("the grade “bench”"),
    ]);
    const crowded = computeQuote({
      ...FACTS,
      choices: ["jet"],
      carburettors: Array.from({ length: 5 }, (_, at) => ({ name: `${at + 1}`, settings: AS_FOUND })),
    });
    expect(crowded.target.sheet).toBeNull();
    expect(crowded.target.trouble?.message).toContain("outside 1 to 4");
  });

  it("is not sent while a part stands at nothing for want of a price, and names the part to mend", () => {
    const [filter, ...others] = FACTS.parts as [QuotePartRow, ...QuotePartRow[]];
    const stopsOf = (facts: QuoteFacts) => {
      const { sendable, warnings } = computeQuote(facts);
      return { sendable, stops: warnings.filter((w) => w.stops) };
    };
    const free = { ...filter, costE4: null, priceE4: null };
    expect(stopsOf({ ...FACTS, parts: [free, ...others] })).toEqual({
      sendable: false,
      stops: [expect.objectContaining({ message: "BF-20 has no price and stands at nothing.", partId: 1 })],
    });
    expect(stopsOf({ ...FACTS, parts: others })).toEqual({
      sendable: false,
      stops: [
        expect.objectContaining({
          message: "BF-20 is not among the shop's parts, so it has no price and stands at nothing.",
          partCode: "BF-20",
        }),
      ],
    });
    // A price of nothing that somebody set is a gift, and where the whole is given no price is wanted.
    expect(stopsOf({ ...FACTS, parts: [{ ...free, priceE4: 0 }, ...others] }).sendable).toBe(true);
    expect(stopsOf({ ...FACTS, parts: [free, ...others], discountBp: 10_000 }).sendable).toBe(true);
  });

  it("gives the same quote for the same facts, whatever the order of the ticks", () => {
    fc.assert(
      fc.property(subsets, (ticks) => {
        const once = computeQuote({ ...FACTS, choices: ticks });
        expect(computeQuote({ ...FACTS, choices: ticks })).toEqual(once);
        expect(computeQuote({ ...FACTS, choices: ticks.toReversed() }).price).toEqual(once.price);
      }),
      { numRuns: 25 },
    );
  });
});
