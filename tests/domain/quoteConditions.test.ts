import { describe, expect, it } from "vitest";
import { SetConditionsSchema, shownConditions } from "@/lib/schemas/quoteConditions";

const typed = (more: Record<string, string>) =>
  SetConditionsSchema.safeParse({ id: "1", version: "1", season: "summer", altitude: "410", ...more });
const told = (of: ReturnType<typeof typed>, field: string) =>
  of.error?.issues.find((issue) => issue.path[0] === field)?.message;

describe("the conditions form", () => {
  it("keeps metres and degrees Celsius of what is typed in feet and Fahrenheit (1 ft = 0.3048 m; 70.7 °F = 21.5 °C)", () => {
    const us = typed({ altitude: "1350", altitudeUnit: "ft", temperature: "70.7", temperatureUnit: "degF" });
    expect(us.data).toMatchObject({ altitudeM: 411.48, temperatureC: 21.5, humidityPercent: null });
    expect(typed({ temperature: "21,5" }).data).toMatchObject({ altitudeM: 410, temperatureC: 21.5 });
    expect(typed({ temperature: "", humidityPercent: "40" }).data).toMatchObject({
      temperatureC: null,
      humidityPercent: 40,
    });
  });

  it("shows every foot and degree as it was typed", () => {
    for (let feet = -1300; feet <= 16_400; feet += 7)
      for (const heat of ["-38", "0", "32", "71", "99.5", "130"]) {
        const kept = typed({
          altitude: `${feet}`,
          altitudeUnit: "ft",
          temperature: heat,
          temperatureUnit: "degF",
        });
        const shown = kept.data && shownConditions(kept.data, "us");
        expect([shown?.altitude, shown?.temperature]).toEqual([feet, Number(heat)]);
      }
  });

  it("refuses in the unit it was asked in, naming the field", () => {
    expect(told(typed({ altitude: "17000", altitudeUnit: "ft" }), "altitude")).toBe(
      "Enter -1312 to 16404 ft.",
    );
    expect(told(typed({ altitude: "" }), "altitude")).toBe("Enter -400 to 5000 m.");
    expect(told(typed({ temperature: "150", temperatureUnit: "degF" }), "temperature")).toBe(
      "Enter -38 to 131 °F, or leave it empty.",
    );
    expect(told(typed({ temperature: "warm" }), "temperature")).toMatch(/number/);
    // Colder than anything can be.
    expect(told(typed({ temperature: "-500", temperatureUnit: "degF" }), "temperature")).toMatch(
      /^Enter -38/,
    );
    expect(told(typed({ temperature: "-500" }), "temperature")).toMatch(/^Enter -39/);
  });
});
