import { describe, expect, it } from "vitest";
import { marksOf, moneyText } from "../../lib/domain/money/format";
import { parseMoney } from "../../lib/domain/money/parse";
import { unitPriceText } from "../../lib/domain/money/unitPrice";
import { Refusal } from "../../lib/domain/refusal";

// Marks and their places: Unicode CLDR, chart "Numbering systems", number symbols of each locale.
const NBSP = "\u00a0";
const NARROW = "\u202f";
const MINUS = "\u2212";

describe("amounts without their currency's sign", () => {
  it.each([
    [123_450, "AUD", "en-AU", "1,234.50"],
    [-1230, "AUD", "en-AU", `${MINUS}12.30`],
    [123_450, "EUR", "de-DE", "1.234,50"],
    [123_450, "EUR", "fr-FR", `1${NARROW}234,50`],
    [123_450, "NOK", "nb-NO", `1${NBSP}234,50`],
    [1_234_567, "JPY", "en-US", "1,234,567"],
    [1_234_567, "KWD", "en-US", "1,234.567"],
    [0, "AUD", "en-AU", "0.00"],
  ])("writes %i of %s in %s as CLDR does", (minor, currency, locale, text) => {
    expect(moneyText(minor, currency, locale)).toBe(text);
  });

  it("writes a unit price with the currency's digits, or as many more as it needs", () => {
    expect(unitPriceText(125, "AUD", "en-AU")).toBe("0.0125");
    expect(unitPriceText(125_000, "AUD", "en-AU")).toBe("12.50");
    expect(unitPriceText(-5_000, "EUR", "de-DE")).toBe(`${MINUS}0,50`);
    expect(unitPriceText(15_000, "JPY", "en-US")).toBe("1.5");
  });

  it("keeps what a float would round: ninety billions to the cent", () => {
    expect(moneyText(9_007_199_254_740_991, "AUD", "en-AU")).toBe("90,071,992,547,409.91");
  });

  it("refuses a locale that is none with what to do, and an unknown currency", () => {
    expect(() => moneyText(1, "AUD", "not a locale")).toThrow(Refusal);
    expect(() => moneyText(1, "AUD", "not a locale")).toThrow("no language and region");
    expect(() => moneyText(1, "ZZZ", "en-AU")).toThrow("no currency");
  });
});

describe("the marks of a locale", () => {
  it.each([
    ["en-AU", ".", ","],
    ["de-DE", ",", "."],
    ["nb-NO", ",", NBSP],
    ["fr-FR", ",", NARROW],
    // Mexico groups by commas, Brazil by dots.
    ["es-MX", ".", ","],
    ["pt-BR", ",", "."],
  ])("of %s are %s and %s (CLDR)", (locale, decimal, group) => {
    expect(marksOf(locale)).toEqual({ decimal, group });
  });
});

describe("amounts as people type them", () => {
  it.each([
    ["AUD 12.50", "AUD", "en-AU", 1250],
    ["aud12.50", "AUD", "en-AU", 1250],
    ["12.50AUD", "AUD", "en-AU", 1250],
    ["  12.50 aud  ", "AUD", "en-AU", 1250],
    ["£5", "GBP", "en-GB", 500],
    ["AUD -12", "AUD", "en-AU", -1200],
    ["- $12", "AUD", "en-AU", -1200],
    ["100", "NOK", "nb-NO", 10_000],
    ["12,50 €", "EUR", "de-DE", 1250],
    ["12 kr.", "NOK", "nb-NO", 1200],
    ["kr.12", "DKK", "da-DK", 1200],
    ["12KR", "SEK", "sv-SE", 1200],
    ["+12", "AUD", "en-AU", 1200],
    ["- 12", "AUD", "en-AU", -1200],
    ["-$12.50", "AUD", "en-AU", -1250],
    ["1 234 567,89", "NOK", "nb-NO", 123_456_789],
    [`1${NBSP}234`, "NOK", "nb-NO", 123_400],
    ["1\u2009234", "NOK", "nb-NO", 123_400],
    ["1'234'567.50", "CHF", "de-CH", 123_456_750],
    ["1.234.567", "EUR", "de-DE", 123_456_700],
    ["1.234.567,5", "EUR", "de-DE", 123_456_750],
    ["12.", "AUD", "en-AU", 1200],
    [",5", "NOK", "nb-NO", 50],
    ["0.05", "AUD", "en-AU", 5],
    ["1,23", "AUD", "en-AU", 123],
    ["12,345.5", "NOK", "nb-NO", 1_234_550],
    ["123,456", "AUD", "en-AU", 12_345_600],
  ])("reads %j in %s for %s", (typed, currency, locale, minor) => {
    expect(parseMoney(typed, currency, locale)).toBe(minor);
  });

  it.each([
    ["   ", "AUD", "en-AU"],
    ["-", "AUD", "en-AU"],
    [".", "AUD", "en-AU"],
    ["AUD", "AUD", "en-AU"],
    ["$", "AUD", "en-AU"],
    ["12x", "AUD", "en-AU"],
    ["x12", "AUD", "en-AU"],
    ["12.5x", "AUD", "en-AU"],
    ["12.x5", "AUD", "en-AU"],
    ["--12", "AUD", "en-AU"],
    ["12-", "AUD", "en-AU"],
    ["1$2", "AUD", "en-AU"],
    ["1kr2", "NOK", "nb-NO"],
    ["12 AUD 5", "AUD", "en-AU"],
    ["1234,567.50", "AUD", "en-AU"],
    ["1,2345.50", "AUD", "en-AU"],
    ["1,234 567.50", "AUD", "en-AU"],
    [",234.50", "AUD", "en-AU"],
    ["1,234,56", "AUD", "en-AU"],
    ["1 23", "NOK", "nb-NO"],
    ["1.5.", "AUD", "en-AU"],
  ])("refuses %j in %s for %s as no amount", (typed, currency, locale) => {
    expect(() => parseMoney(typed, currency, locale)).toThrow(`"${typed}" is no amount`);
  });

  it.each([
    ["1,234", "EUR", "de-CH"],
    ["1.234", "SEK", "sv-SE"],
    ["1,234.567,8", "AUD", "en-AU"],
    ["1.234.5,67.8", "EUR", "de-DE"],
  ])("refuses %j in %s for %s as readable in two ways", (typed, currency, locale) => {
    expect(() => parseMoney(typed, currency, locale)).toThrow("two ways");
  });

  it("shows an example with the locale's mark and the currency's digits", () => {
    const remedy = (currency: string, locale: string) => {
      try {
        parseMoney("?", currency, locale);
      } catch (error) {
        if (error instanceof Refusal) return error.remedy;
      }
      return "";
    };
    expect(remedy("AUD", "en-AU")).toBe("Enter an amount such as 1234.50.");
    expect(remedy("NOK", "nb-NO")).toBe("Enter an amount such as 1234,50.");
    expect(remedy("JPY", "en-US")).toBe("Enter an amount such as 1234.");
  });
});
