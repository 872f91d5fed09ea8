import { z } from "zod";
import { stationsOf } from "../domain/bench/needleStations";
import { Refusal } from "../domain/refusal";
import type { NeedlePoint } from "../domain/tuning/needlePoints";
import type { NeedleWork } from "../domain/tuning/needleWork";
import { readTyped } from "./typedNumber";

const typed = (most: number) =>
  z.string().trim().max(most, `Keep this within ${most} characters.`).default("");

/** What an option does to the needle, as its form asks for it. */
export const needleWorkFields = {
  needleWork: z
    .enum(["", "reduce", "stations", "exchange"], "Choose what is done to the needle.")
    .default(""),
  needleFrom: typed(20),
  needleTo: typed(20),
  needleBy: typed(20),
  needleStations: typed(400),
  needleGauge: typed(20),
  needleCode: typed(60),
};
export type NeedleWorkSaid = {
  readonly [K in keyof typeof needleWorkFields]: z.output<(typeof needleWorkFields)[K]>;
};

/** The needle work that a form said; undefined where it says none, or where a fault was told. */
export function needleWorkFrom(
  said: NeedleWorkSaid,
  tell: (field: keyof NeedleWorkSaid, message: string) => void,
): NeedleWork | undefined {
  let wrong = false;
  const number = (
    field: "needleFrom" | "needleTo" | "needleBy" | "needleGauge",
    low: number,
    high: number,
  ) => {
    const value = readTyped(said[field]);
    if (typeof value === "number" && value >= low && value <= high) return value;
    wrong = true;
    tell(field, `Enter a number from ${low} to ${high} mm.`);
    return 0;
  };
  const gauge = said.needleGauge === "" ? {} : { gaugeMm: number("needleGauge", 0.5, 6) };
  const work = workOf(said, number, gauge, (field, message) => {
    wrong = true;
    tell(field, message);
  });
  return wrong ? undefined : work;
}

function workOf(
  said: NeedleWorkSaid,
  number: (field: "needleFrom" | "needleTo" | "needleBy", low: number, high: number) => number,
  gauge: { gaugeMm?: number },
  tell: (field: keyof NeedleWorkSaid, message: string) => void,
): NeedleWork | undefined {
  if (said.needleWork === "reduce") {
    const [fromMm, toMm] = [number("needleFrom", 0, 120), number("needleTo", 0, 120)];
    if (toMm <= fromMm) tell("needleTo", "Enter a place further down than where it begins.");
    return { kind: "reduce", fromMm, toMm, byMm: number("needleBy", 0.001, 0.4), ...gauge };
  }
  if (said.needleWork === "stations") {
    const stations = stationsIn(said.needleStations, (message) => tell("needleStations", message));
    return { kind: "stations", stations, ...gauge };
  }
  if (said.needleWork === "exchange") {
    if (said.needleCode === "") tell("needleCode", "Enter the code of the needle in stock.");
    return { kind: "exchange", code: said.needleCode };
  }
  return undefined;
}

function stationsIn(text: string, tell: (message: string) => void): readonly NeedlePoint[] {
  try {
    return stationsOf(text, "stations").map(({ liftMm, diameterMm }) => ({ atMm: liftMm, diameterMm }));
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    tell(
      `${cause.message} Write places below the shoulder and diameters in mm, such as 10 2.50; 26 2.50; 36 2.18.`,
    );
    return [];
  }
}
