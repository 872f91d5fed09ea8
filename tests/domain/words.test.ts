import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { AskSchema } from "@/lib/schemas/quoteLife";
import { CustomerAcceptSchema, CustomerDeclineSchema } from "@/lib/schemas/quotes";
import { customerLocale } from "@/lib/words/language";
import { refusalIn, SaidRefusal } from "@/lib/words/refusal";
import { refused } from "@/lib/words/refused";
import { AREAS, wordsIn } from "@/lib/words/words";

type Tree = { readonly [key: string]: string | Tree };

const leaves = (tree: Tree, at = ""): [string, string][] =>
  Object.entries(tree).flatMap(([key, said]) =>
    typeof said === "string" ? [[`${at}${key}`, said] as [string, string]] : leaves(said, `${at}${key}.`),
  );

/** Names of placeholders, with the branches of plurals and choices left aside. */
const placeholders = (text: string) => [...new Set(text.match(/\{\s*(\w+)(?=\s*[,}])/gu) ?? [])].sort();

describe("the catalogue", () => {
  for (const [area, { en, nb }] of Object.entries(AREAS) as [string, { en: Tree; nb: Tree }][]) {
    const english = leaves(en);
    const norwegian = new Map(leaves(nb));

    it(`says all of ${area} in Bokmål, with the same values`, () => {
      expect([...norwegian.keys()].sort()).toEqual(english.map(([key]) => key).sort());
      const plain = english.filter(([, text]) => !text.includes("plural") && !text.includes("select"));
      for (const [key, text] of plain)
        expect(placeholders(norwegian.get(key) ?? ""), `${area}.${key}`).toEqual(placeholders(text));
    });

    it(`repeats no English sentence of ${area} in Bokmål`, () => {
      const same = english.filter(
        ([key, text]) => norwegian.get(key) === text && /[a-z]{4,} [a-z]/iu.test(text),
      );
      expect(same).toEqual([]);
    });
  }

  it("reads every message as ICU wants it, in both languages", () => {
    for (const locale of ["en-AU", "nb-NO"]) {
      const say = wordsIn(locale) as unknown as (key: string, values: object) => string;
      const said = Object.entries(AREAS).flatMap(([area, { en }]) =>
        leaves(en as Tree).map(([key, text]) => say(`${area}.${key}`, valuesOf(text))),
      );
      expect(said.length).toBeGreaterThan(200);
      expect(said.filter((text) => text === "" || /[{}]/.test(text))).toEqual([]);
    }
  });

  it("chooses the customer's language and keeps the formats of the shop's place", () => {
    expect(customerLocale("nb-NO", "")).toBe("nb-NO");
    expect(customerLocale("nb-NO", "nb")).toBe("nb-NO");
    expect(customerLocale("nb-NO", "en")).toBe("en-NO");
    expect(customerLocale("en-AU", "nb")).toBe("nb-AU");
    expect(customerLocale("en-AU", "en-AU")).toBe("en-AU");
    expect(customerLocale("en-AU", "nb-NO")).toBe("nb-AU");
    expect(wordsIn(customerLocale("en-AU", "nb"))("answering.accept")).toBe("Godta tilbudet");
  });
});

/** A value for every placeholder of a message. */
const valuesOf = (text: string) =>
  Object.fromEntries(
    placeholders(text).map((found) => {
      const name = found.replace(/\W/gu, "");
      const day = new RegExp(`\\{${name}, date`, "u").test(text);
      return [name, day ? new Date(0) : name === "steps" ? 2 : "x"];
    }),
  );

describe("what is refused to a customer", () => {
  const known = new Set<string>(Object.values(refused.en));

  it("has every sentence of their forms in the catalogue", () => {
    const long = "x".repeat(5000);
    const tries = [
      CustomerAcceptSchema.safeParse({}),
      CustomerAcceptSchema.safeParse({ typedName: "x", shownHash: "y", wishWhen: "never", wishFrom: "32" }),
      CustomerAcceptSchema.safeParse({
        typedName: long,
        shownHash: "y",
        wishNot: [1, 2, 3, 4, 5, 6, 7],
        wishNote: long,
      }),
      CustomerDeclineSchema.safeParse({ reason: long }),
      AskSchema.safeParse({ text: "" }),
      AskSchema.safeParse({ text: long }),
    ];
    const said = tries.flatMap((tried) => tried.error?.issues.map((issue) => issue.message) ?? []);
    expect(said.length).toBeGreaterThan(8);
    expect(said.filter((text) => !known.has(text))).toEqual([]);
  });

  it("is said in Bokmål with its values, and never in two languages", () => {
    const state = refusalIn(
      new SaidRefusal("quoteState", { number: 1052, state: "accepted" }, "askNew"),
      "nb-NO",
    );
    expect(state.message).toBe("Tilbud 1052 er godtatt.");
    expect(state.remedy).toBe("Be verkstedet om et nytt.");
    const day = new SaidRefusal(
      "quoteOver",
      { number: 7, day: new Date("2026-12-24T00:00:00Z") },
      "quoteOverDo",
    );
    expect(day.message).toBe("Quote 7 was valid until 24 December 2026.");
    expect(refusalIn(day, "nb-NO").message).toBe("Tilbud 7 gjaldt til 24. desember 2026.");
    const unknown = refusalIn(
      new Refusal("Something nobody foresaw.", "Do this.", { field: "Odd." }),
      "nb-NO",
    );
    expect(unknown).toMatchObject({
      message: "Dette lot seg ikke gjøre.",
      remedy: "Ring verkstedet.",
      fields: { field: "Dette lot seg ikke gjøre." },
    });
  });
});
