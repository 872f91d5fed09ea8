import { z } from "zod";
import { placeNamed } from "@/lib/domain/air/places";
import { Refusal } from "@/lib/domain/refusal";

const degrees = (name: string, limit: number) =>
  z
    .string()
    .trim()
    .optional()
    .transform((typed) => (typed ? Number(typed.replace(",", ".").replace("−", "-")) : null))
    .refine(
      (n) => n === null || (Number.isFinite(n) && Math.abs(n) <= limit),
      `${name} in degrees, -${limit} to ${limit}; south and west are negative.`,
    );

/** Where a shop is: a place from the list, or degrees, which win over it. All may be blank. */
export const PLACE_FIELDS = {
  place: z
    .string()
    .trim()
    .max(80, "Keep this under 80 characters.")
    .optional()
    .transform((text) => text ?? ""),
  latitude: degrees("Latitude", 75),
  longitude: degrees("Longitude", 180),
};

export interface TypedPlace {
  readonly place: string;
  readonly latitude: number | null;
  readonly longitude: number | null;
}

/** The degrees that were typed, else those of the place; null for neither. Throws Refusal for a place that is not listed, or half of the degrees. */
export function degreesOf({
  place,
  latitude,
  longitude,
}: TypedPlace): { latitude: number; longitude: number } | null {
  if (latitude !== null && longitude !== null) return { latitude, longitude };
  if (latitude !== null || longitude !== null) {
    const missing = latitude === null ? "latitude" : "longitude";
    throw new Refusal(`The ${missing} is missing.`, "Enter both, or leave both blank.", {
      [missing]: "Enter this too.",
    });
  }
  if (place === "") return null;
  const known = placeNamed(place);
  if (!known)
    throw new Refusal(
      `"${place}" is not in the list of places.`,
      "Choose a near one, or enter the degrees.",
      {
        place: "Not in the list: choose a near one, or enter latitude and longitude.",
      },
    );
  return { latitude: known.latitude, longitude: known.longitude };
}
