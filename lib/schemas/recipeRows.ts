import { z } from "zod";
import type { SettingChange } from "@/lib/domain/tuning/settingChange";
import type { HoldPoint, PartNeed } from "../domain/packages/recipe";
import { measurable } from "../domain/tuning/measurables";
import { SETTINGS } from "../domain/tuning/settings";
import { milliOf } from "./quantity";
import { readTyped } from "./typedNumber";

type Cells = Readonly<Record<string, string>>;
interface Told {
  addIssue(issue: { code: "custom"; path: string[]; message: string }): void;
}

/** Rows of a form, `name.0.cell`: a row whose `cells` are all blank is none; `read` answers undefined where it told a fault. */
export function rows<T>(
  most: number,
  cells: readonly string[],
  read: (row: Cells, tell: (cell: string, message: string) => undefined) => T | undefined,
) {
  return z
    .record(z.string().regex(/^\d{1,3}$/), z.record(z.string(), z.string().max(500)))
    .default({})
    .transform((given, context) => {
      const told = context as unknown as Told;
      const filled = Object.entries(given)
        .sort(([a], [b]) => Number(a) - Number(b))
        .filter(([, row]) => cells.some((cell) => (row[cell] ?? "").trim() !== ""));
      const past = filled[most];
      if (past) {
        const message = `Keep this within ${most} rows.`;
        told.addIssue({ code: "custom", path: [past[0], cells[0] ?? ""], message });
        return z.NEVER;
      }
      const out = filled.map(([at, row]) =>
        read(row, (cell, message) => {
          told.addIssue({ code: "custom", path: [at, cell], message });
          return undefined;
        }),
      );
      return out.some((item) => item === undefined) ? z.NEVER : (out as T[]);
    });
}

export const partRows = rows<PartNeed>(60, ["what"], (row, tell) => {
  const what = (row.what ?? "").trim();
  const quantityMilli = milliOf((row.quantity ?? "").trim() || "1");
  if (what.length > 60) return tell("what", "Keep this within 60 characters.");
  if (quantityMilli === null || quantityMilli <= 0)
    return tell("quantity", "Enter a quantity above nothing, such as 1 or 2.5.");
  const taker = (row.operation ?? "").trim();
  if (taker.length > 60) return tell("operation", "Choose one of the operations.");
  const operation = taker ? { operation: taker } : {};
  if (row.kind === "mainJet" || row.kind === "pilotJet")
    return { kind: "jet", setting: row.kind, family: what, quantityMilli, ...operation };
  const kit = (row.kit ?? "").trim().slice(0, 60);
  return { kind: "part", code: what, quantityMilli, ...operation, ...(kit ? { kit } : {}) };
});

export const changeRows = rows<SettingChange>(20, ["setting", "value"], (row, tell) => {
  const setting = row.setting ?? "";
  if (!SETTINGS.some((s) => s.key === setting)) return tell("setting", "Choose a setting.");
  const typed = (row.value ?? "").trim();
  if (row.change === "computed")
    return typed === ""
      ? { setting, change: "computed" }
      : tell("value", "A computed setting takes no value: empty it, or choose how it is set.");
  const value = readTyped(typed);
  if (typeof value !== "number") return tell("value", "Enter the value.");
  return { setting, change: row.change === "add" ? "add" : "set", value };
});

const HOLD_CELLS = ["name", "unit", "low", "high", "step"] as const;

export const holdRows = rows<HoldPoint>(20, HOLD_CELLS, (row, tell) => {
  const holdName = (row.name ?? "").trim();
  if (holdName === "") return tell("name", "Say what is read or signed.");
  if (holdName.length > 120) return tell("name", "Keep this within 120 characters.");
  const [low, high, step] = ["low", "high", "step"].map((cell) => readTyped(row[cell] ?? ""));
  if (row.kind === "signature") {
    const limited = low !== null || high !== null || step !== null;
    return limited
      ? tell("low", "A signature has no limits: empty them, or make it a reading.")
      : { kind: "signature", name: holdName };
  }
  if (low === undefined) return tell("low", "Enter a number, or leave it empty.");
  if (high === undefined) return tell("high", "Enter a number, or leave it empty.");
  if (step === undefined || (step !== null && step <= 0))
    return tell("step", "Enter a number above nothing, or leave it empty.");
  if (low !== null && high !== null && low > high) return tell("low", "The low limit is above the high one.");
  const unit = (row.unit ?? "").trim();
  if (unit.length > 20) return tell("unit", "Keep the unit within 20 characters.");
  const measures = (row.measures ?? "").trim();
  const what = measurable(measures);
  if (measures && !what) return tell("measures", "Choose what it measures, or nothing.");
  if (low === null && high === null && !what)
    return tell("low", "Give at least one limit, or say what it measures.");
  const station = readTyped(row.station ?? "");
  if (station === undefined || (station !== null && (station < 0 || station > 120)))
    return tell("station", "Enter 0 to 120 mm, or leave it empty.");
  if (station !== null && !what?.atStation)
    return tell("station", "Only a needle is read at a distance along it: empty this.");
  const carburettor = readTyped(row.carburettor ?? "");
  if (carburettor === undefined || (carburettor !== null && ![1, 2, 3, 4].includes(carburettor)))
    return tell("carburettor", "Enter 1 to 4, or leave it empty.");
  return {
    kind: "reading",
    name: holdName,
    ...(unit ? { unit } : {}),
    ...(low === null ? {} : { low }),
    ...(high === null ? {} : { high }),
    ...(step === null ? {} : { step }),
    ...(measures ? { measures } : {}),
    ...(measures && carburettor !== null ? { carburettor } : {}),
    ...(station === null ? {} : { station }),
  };
});
