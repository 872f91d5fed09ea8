import { z } from "zod";
import { COARSE_PITCH, DRIVES, HEADS, type Screw } from "../domain/stock/screws";
import { id } from "./packages";
import { neededNumber, typedNumber } from "./typedNumber";

const fields = {
  diameterMm: neededNumber({ name: "The thread", low: 1, high: 20, unit: "mm" }),
  pitchMm: typedNumber({ name: "The pitch", low: 0.2, high: 3, unit: "mm" }),
  lengthMm: neededNumber({ name: "The length", low: 1, high: 200, unit: "mm" }),
  head: z.enum(HEADS, "Choose the head."),
  drive: z.enum(DRIVES, "Choose the drive."),
};

type Typed = Omit<Screw, "pitchMm"> & { readonly pitchMm: number | null };

/** A screw as typed; an empty pitch is the coarse one of its size. */
function screwOf({ pitchMm, ...screw }: Typed, tell: (message: string) => void): Screw | null {
  const pitch = pitchMm ?? COARSE_PITCH[String(screw.diameterMm)];
  if (pitch !== undefined) return { ...screw, pitchMm: pitch };
  tell("Enter the pitch: this size has no coarse one here.");
  return null;
}

export const FindScrewSchema = z.object(fields).transform((typed, context) => {
  const screw = screwOf(typed, (message) => context.addIssue({ code: "custom", path: ["pitchMm"], message }));
  return screw ?? z.NEVER;
});

export const MeasureScrewSchema = z
  .object({ id, ...fields })
  .transform(({ id: partId, ...typed }, context) => {
    const screw = screwOf(typed, (message) =>
      context.addIssue({ code: "custom", path: ["pitchMm"], message }),
    );
    return screw ? { partId, screw } : z.NEVER;
  });

/** A screw as a part's facts keep it. */
export const ScrewFactSchema = z.object({
  diameterMm: z.number(),
  pitchMm: z.number(),
  lengthMm: z.number(),
  head: z.enum(HEADS),
  drive: z.enum(DRIVES),
});
