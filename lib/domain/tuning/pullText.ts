import { Refusal } from "../refusal";
import type { Known } from "./cardTypes";
import { type FillingPoint, fillingFrom } from "./volumetric";

const PAIR = /^(\d{3,5})\s+(\d+(?:[.,]\d+)?)$/u;

/**
 * The bike's own filling from a pull as it is typed: engine speed and torque in pairs, parted by semicolons, new lines or commas
 * with a space. Blank: undefined. Throws Refusal for anything else, and what fillingFrom throws.
 */
export function fillingOfText(text: string, ratedRpm: number): Known<readonly FillingPoint[]> | undefined {
  const pairs = text
    .split(/[;\n]|,\s/u)
    .map((pair) => pair.trim())
    .filter((pair) => pair !== "")
    .map((pair) => {
      const [, rpm = "", torque = ""] = PAIR.exec(pair) ?? [];
      if (rpm === "")
        throw new Refusal(
          `"${pair}" is no engine speed with a torque.`,
          "Enter pairs, as 3000 31.2; 3500 33.0.",
          { pull: "Enter pairs of rpm and torque, as 3000 31.2; 3500 33.0." },
        );
      return { rpm: Number(rpm), torque: Number(torque.replace(",", ".")) };
    });
  if (pairs.length === 0) return undefined;
  const [rpm, torque] = [pairs.map((p) => p.rpm), pairs.map((p) => p.torque)];
  return { value: fillingFrom(rpm, torque, ratedRpm), how: "measured" };
}
