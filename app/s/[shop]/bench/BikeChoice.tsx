import Form from "next/form";
import { buttonLook } from "@/app/_ui/buttonLook";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import type { BenchBike } from "@/lib/data/bikes/benchBike";

export interface BikeChoiceProps {
  path: string;
  slug: string;
  bikes: readonly { id: number; name: string }[];
  bike: BenchBike | null;
  /** What is filled in from a bike: "its jets and its needle". */
  fills: string;
}

/** Begins a calculation from a bike; its values are filled in and may be typed over. */
export function BikeChoice({ path, slug, bikes, bike, fills }: BikeChoiceProps) {
  return (
    <div className="mb-5 print:mb-2">
      {bikes.length > 0 && (
        <Form
          key={bike?.id ?? 0}
          action={path}
          aria-label="Begin from a bike"
          className="flex flex-wrap items-end gap-2 print:hidden"
        >
          <div className="min-w-0 flex-1 basis-56">
            <label htmlFor="bench-bike" className="mb-1 block font-semibold text-[15px]">
              Begin from a bike
            </label>
            <select id="bench-bike" name="bike" defaultValue={bike?.id ?? ""} className={CONTROL}>
              <option value="">None: type everything</option>
              {bikes.map((each) => (
                <option key={each.id} value={each.id}>
                  {each.name}
                </option>
              ))}
            </select>
          </div>
          <button type="submit" className={buttonLook("second")}>
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
