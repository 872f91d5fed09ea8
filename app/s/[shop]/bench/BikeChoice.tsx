import Form from "next/form";
import { buttonLook } from "@/app/_ui/buttonLook";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { PickField } from "@/app/_ui/PickField";
import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { Pick } from "@/lib/schemas/picks";

export interface BikeChoiceProps {
  path: string;
  slug: string;
  /** Bikes as the field for them offers them first. */
  newest: readonly Pick[];
  bike: BenchBike | null;
  /** What is filled in from a bike: "its jets and its needle". */
  fills: string;
}

/** Begins a calculation from a bike; its values are filled in and may be typed over. */
export function BikeChoice({ path, slug, newest, bike, fills }: BikeChoiceProps) {
  return (
    <div className="mb-5 print:mb-2">
      {newest.length > 0 && (
        <Form
          key={bike?.id ?? 0}
          action={path}
          aria-label="Begin from a bike"
          className="flex flex-wrap items-start gap-x-2 print:hidden"
        >
          <PickField
            shop={slug}
            from="bikes"
            name="bike"
            label="Begin from a bike"
            newest={newest}
            chosen={bike && { value: String(bike.id), label: bike.name, sub: "" }}
            blank="None: type everything"
            className="flex-1 basis-56"
          />
          <button type="submit" className={buttonLook("second", undefined, "mt-7")}>
            Fill in
          </button>
        </Form>
      )}
      {bike ? (
        <p className="mt-2 text-[15px]">
          <Link href={`/s/${slug}/bikes/${bike.id}`} className="font-semibold">
            {bike.name}
          </Link>{" "}
          <span className="text-soft">
            {bike.settingsFrom
              ? `fitted ${bike.settingsFrom.kind === "asLeft" ? "as left" : "as found"} on its newest sheet`
              : "no sheet yet: as delivered on the model card"}
            ; {fills}.
          </span>
        </p>
      ) : (
        <Note title="Example numbers.">Put in your own; the address of the page carries them.</Note>
      )}
    </div>
  );
}
