import { describe, expect, it } from "vitest";
import { SheetSchema } from "@/lib/schemas/sheets";
import { SettingsSchema, shownSettings } from "@/lib/schemas/shop";

const told = (
  of: { error?: { issues: readonly { path: readonly PropertyKey[]; message: string }[] } | undefined },
  field: string,
) => of.error?.issues.find((issue) => issue.path[0] === field)?.message;

describe("the air of a setting sheet", () => {
  const sheet = (more: Record<string, string>) =>
    SheetSchema.safeParse({
      bikeId: "1",
      kind: "asLeft",
      values: { "1": { mainJet: "140" } },
      how: { "1": { mainJet: "read" } },
      ...more,
    });

  it("is kept in degrees Celsius and hectopascals, whatever it was read in", () => {
    // 68 F is 20 C; 29.92 inHg is 1013.21 hPa (ICAO's standard atmosphere: 1013.25 hPa, 29.92 inHg).
    const us = { temperature: "68", temperatureUnit: "degF", pressure: "29.92", pressureUnit: "inHg" };
    expect(sheet(us).data).toMatchObject({ temperatureC: 20, pressureHpa: 1013.207 });
    expect(sheet({ temperature: "20,5", pressure: "1 013" }).data).toMatchObject({
      temperatureC: 20.5,
      pressureHpa: 1013,
    });
    expect(sheet({}).data).toMatchObject({ temperatureC: null, pressureHpa: null });
  });

  it("is refused in the unit it was asked in", () => {
    expect(told(sheet({ pressure: "1013", pressureUnit: "inHg" }), "pressure")).toBe(
      "Enter 14 to 32 inHg, or leave it empty.",
    );
    expect(told(sheet({ temperature: "-500", temperatureUnit: "degF" }), "temperature")).toMatch(
      /^Enter -38 to 131/,
    );
  });
});

/** The rest of the form, as a new shop's page sends it. */
const FORM = {
  version: "1",
  name: "Saltpan Carburettor Works",
  locale: "en-AU",
  zone: "Australia/Adelaide",
  units: "us",
  taxRegime: "none",
  taxRateBp: "0",
  pricesIncludeTax: "yes",
  quoteValidDays: "30",
  paymentDays: "14",
  depositBp: "0",
  minimumMarginBp: "20",
  sundriesBp: "0",
  cashRoundingMinor: "5",
  billingUnit: "minutes",
  followUpDays: "30",
};

describe("a shop's own figures", () => {
  const settings = (more: Record<string, string>) => {
    const read = SettingsSchema.safeParse({
      ...FORM,
      altitude: "410",
      benchTemperature: "20",
      followUpDistance: "3000",
      ...more,
    });
    return { told: (field: string) => told(read, field), kept: read.data };
  };

  it("come back as they were typed: feet by fives, degrees Fahrenheit by tenths, whole miles", () => {
    for (let feet = -1310; feet <= 16_400; feet += 5) {
      const kept = { altitudeM: Math.round(feet * 0.3048), benchTemperatureC: 20, followUpKm: 3000 };
      expect(shownSettings(kept, "us").altitude).toBe(feet);
    }
    const shown = shownSettings({ altitudeM: 410, benchTemperatureC: 20, followUpKm: 3219 }, "us");
    expect(shown).toMatchObject({ benchTemperature: 68, followUpDistance: 2000, distanceUnit: "mi" });
    expect(
      shownSettings({ altitudeM: 411, benchTemperatureC: 20.5, followUpKm: 3000 }, "metric"),
    ).toMatchObject({
      altitude: 411,
      benchTemperature: 20.5,
      followUpDistance: 3000,
    });
  });

  it("are kept in whole metres, degrees Celsius and whole kilometres", () => {
    const us = {
      altitude: "1350",
      altitudeUnit: "ft",
      benchTemperature: "68",
      temperatureUnit: "degF",
      followUpDistance: "2000",
      distanceUnit: "mi",
    };
    const kept = { altitudeM: 411, benchTemperatureC: 20, followUpKm: 3219 };
    expect(settings(us).kept).toMatchObject(kept);
    expect(settings({}).kept).toMatchObject({ altitudeM: 410, benchTemperatureC: 20, followUpKm: 3000 });
    const { altitude, benchTemperature, followUpDistance } = shownSettings(kept, "us");
    expect([altitude, benchTemperature, followUpDistance].map(String)).toEqual(["1350", "68", "2000"]);
  });

  it("are refused in the unit they were asked in, blank ones too", () => {
    const { told: wrong } = settings({
      altitude: "17000",
      altitudeUnit: "ft",
      benchTemperature: "",
      followUpDistance: "9",
    });
    expect(wrong("altitude")).toBe("Enter -1312 to 16404 ft.");
    expect(wrong("benchTemperature")).toBe("Enter -30 to 50 °C.");
    expect(wrong("followUpDistance")).toBe("Enter 100 to 100000 km.");
    const { told: halves } = settings({ altitude: "410.5", followUpDistance: "3000,5" });
    expect([halves("altitude"), halves("followUpDistance")]).toEqual([
      "Enter a whole number.",
      "Enter a whole number.",
    ]);
  });
});
