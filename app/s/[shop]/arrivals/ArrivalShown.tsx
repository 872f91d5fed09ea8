import { distanceText } from "@/app/_ui/distanceText";
import { Facts } from "@/app/_ui/Facts";
import { LineDrawing } from "@/app/_ui/LineDrawing";
import { SignatureLine } from "@/app/_ui/SignatureLine";
import { type ArrivalView, type DamageView, marksOn } from "@/lib/data/arrivals/get";
import { SIDES } from "@/lib/domain/arrival/damage";
import { motorcycle } from "@/lib/domain/arrival/motorcycle";
import { arrivalWords } from "@/lib/words/arrival";

const words = arrivalWords("en");

/** A mark in words: "fuel tank, left: dented". */
export const damageText = ({ part, side, what, note }: Omit<DamageView, "photos">) =>
  `${words.part[part]}, ${words.side[side]}: ${words.what[what]}${note ? `. ${note}` : ""}`;

interface Props {
  arrival: ArrivalView;
  place: { readonly locale: string; readonly zone: string; readonly units: string };
}

/** What was read off a bike, left on it and said of it as it came. */
export function ArrivalFacts({ arrival, place }: Props) {
  const { odometerKm, fuelEighths, keys, accessories } = arrival;
  const { locale, units } = place;
  return (
    <Facts
      rows={[
        {
          name: words.odometer,
          value: odometerKm === null ? "not read" : distanceText(odometerKm, units, locale),
          mono: odometerKm !== null,
        },
        { name: words.fuel, value: fuelEighths === null ? "not looked at" : words.fuels[fuelEighths] },
        ...(keys === null ? [] : [{ name: words.keys, value: String(keys), mono: true }]),
        ...(accessories ? [{ name: words.accessories, value: accessories }] : []),
      ]}
    />
  );
}

/** Both sides of the bike with their marks. */
export function ArrivalDrawings({ damages }: { damages: readonly DamageView[] }) {
  return (
    <div className="grid gap-4 sm:grid-cols-2 print:grid-cols-2">
      {SIDES.map((side) => (
        <LineDrawing key={side} drawing={motorcycle(side, marksOn(side, damages))} />
      ))}
    </div>
  );
}

/** How the bike came, on the sheet that goes home with it. */
export function ArrivalAgain({ arrival, place }: Props) {
  const { damages, signedAt, signedBy, signature } = arrival;
  return (
    <>
      <ArrivalFacts arrival={arrival} place={place} />
      {damages.length === 0 ? (
        <p className="mt-2">{words.whole}</p>
      ) : (
        <ol className="mt-2 list-decimal pl-6">
          {damages.map((one) => (
            <li key={one.id}>{damageText(one)}</li>
          ))}
        </ol>
      )}
      {signedAt && <SignatureLine signedBy={signedBy} signedAt={signedAt} signature={signature} {...place} />}
    </>
  );
}
