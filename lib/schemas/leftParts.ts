import { z } from "zod";
import type { PartChange } from "../domain/tuning/partChange";
import { listedNumbers, PartChangeSchema } from "./describedParts";
import { readTyped } from "./typedNumber";

const typed = (most: number) =>
  z.string().trim().max(most, `Keep this within ${most} characters.`).default("");

/** The parts that an option leaves otherwise, as its form asks for them; blank leaves a part as it is. */
export const leftPartFields = {
  leavesSpring: z.enum(["", "cut", "exchanged"], "Choose what is done to the spring.").default(""),
  leavesFreeMm: typed(20),
  leavesWireMm: typed(20),
  leavesCoils: typed(20),
  leavesRate: typed(20),
  leavesHoles: typed(100),
  leavesOpenings: typed(200),
  leavesFilter: typed(80),
  leavesFilterFlow: typed(20),
  leavesFilterAt: typed(20),
  leavesSilencer: typed(80),
  leavesSilencerFlow: typed(20),
  leavesSilencerAt: typed(20),
};
export type LeftPartsSaid = {
  readonly [K in keyof typeof leftPartFields]: z.output<(typeof leftPartFields)[K]>;
};
type Field = keyof LeftPartsSaid;

/** The parts that a form said, each checked; what cannot be had is told at its field and left out. */
export function leftPartsFrom(
  said: LeftPartsSaid,
  say: (field: Field, message: string) => void,
): readonly PartChange[] {
  const told = new Set<Field>();
  const tell = (field: Field, message: string) => {
    if (!told.has(field)) say(field, message);
    told.add(field);
  };
  const optional = (field: Field) => {
    const value = readTyped(said[field]);
    if (value === undefined || (value !== null && value <= 0))
      tell(field, "Enter a number above zero, or leave it blank.");
    return value ?? null;
  };
  const parts: [Field, PartChange][] = [];
  if (said.leavesSpring !== "") {
    const freeMm = optional("leavesFreeMm");
    if (freeMm === null) tell("leavesFreeMm", "Enter the free length that it is to have.");
    const known = { wireMm: optional("leavesWireMm"), coils: optional("leavesCoils") };
    const rateNPerM = optional("leavesRate");
    if (freeMm !== null)
      parts.push([
        "leavesFreeMm",
        { kind: "spring", change: said.leavesSpring, freeMm, ...known, rateNPerM },
      ]);
  } else if (said.leavesFreeMm || said.leavesWireMm || said.leavesCoils || said.leavesRate)
    tell("leavesSpring", "Say whether the spring is cut or exchanged, or empty its figures.");
  const list = (field: "leavesHoles" | "leavesOpenings", most: number) =>
    listedNumbers(said[field], most, (message) => tell(field, message));
  if (said.leavesHoles !== "")
    parts.push([
      "leavesHoles",
      { kind: "liftHoles", holesMm: list("leavesHoles", 1).map(([mm]) => mm ?? 0) },
    ]);
  if (said.leavesOpenings !== "")
    parts.push([
      "leavesOpenings",
      {
        kind: "openings",
        openings: list("leavesOpenings", 2).map(([diameterMm, breatherMm]) => ({
          diameterMm: diameterMm ?? 0,
          breatherMm: breatherMm ?? null,
        })),
      },
    ]);
  if (said.leavesFilter !== "")
    parts.push([
      "leavesFilter",
      {
        kind: "filter",
        name: said.leavesFilter,
        flowLMin: optional("leavesFilterFlow"),
        atPa: optional("leavesFilterAt"),
      },
    ]);
  if (said.leavesSilencer !== "")
    parts.push([
      "leavesSilencer",
      {
        kind: "silencer",
        name: said.leavesSilencer,
        flowLMin: optional("leavesSilencerFlow"),
        atPa: optional("leavesSilencerAt"),
      },
    ]);
  return parts.flatMap(([field, part]) => {
    const read = PartChangeSchema.safeParse(part);
    if (!read.success) tell(field, "This is outside what such a part can have.");
    return read.success ? [read.data] : [];
  });
}
