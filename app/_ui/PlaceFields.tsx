import { PLACES } from "@/lib/domain/air/places";
import { NumberField } from "./NumberField";
import { Suggestions } from "./Suggestions";
import { TextField } from "./TextField";

/** Where the shop is, by a place from the list or by degrees: weather typical of the month follows from it. */
export function PlaceFields({
  latitude,
  longitude,
}: {
  latitude?: number | null | undefined;
  longitude?: number | null | undefined;
}) {
  return (
    <>
      <TextField
        name="place"
        label="Nearest place"
        list="known-places"
        hint="A city from the list, or enter the degrees. Typical weather is told for it."
      />
      <Suggestions id="known-places" values={PLACES.map((place) => place.name)} />
      <NumberField
        name="latitude"
        label="Latitude"
        unit="°"
        initial={latitude ?? undefined}
        hint="South is negative."
      />
      <NumberField
        name="longitude"
        label="Longitude"
        unit="°"
        initial={longitude ?? undefined}
        hint="West is negative."
      />
    </>
  );
}
