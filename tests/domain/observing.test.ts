import { expect, it } from "vitest";
import { OBSERVED, PHOTO_LIMITS } from "@/lib/domain/procedures/observing";
import { procedure } from "@/lib/domain/procedures/procedures";
import { THROTTLES } from "@/lib/schemas/rides";

it("guides at every throttle position, and of each sign says what it may be and what it cannot tell", () => {
  expect([...new Set(OBSERVED.map((place) => place.throttle))]).toEqual([...THROTTLES]);
  const places = OBSERVED.map(({ throttle, load }) => `${throttle} ${load}`);
  expect(new Set(places).size).toBe(places.length);
  for (const { signs, how } of OBSERVED) {
    expect(how.length).toBeGreaterThan(20);
    for (const one of signs) {
      expect(one.may.length, one.sign).toBeGreaterThan(0);
      expect(one.cannot.length, one.sign).toBeGreaterThan(20);
      for (const id of one.settle) expect(procedure(id), `${one.sign}: ${id}`).toBeDefined();
    }
  }
});

it("gives no verdict from a photo, and says so", () => {
  expect(PHOTO_LIMITS).toContain("no mixture is judged from a photo");
  for (const { may } of OBSERVED.flatMap((place) => place.signs))
    expect(may.every((text) => !/\b(fit|change|jet to|go to)\b.*\d/.test(text))).toBe(true);
});
