import { readDyno } from "@/lib/domain/bench/dynoReading";
import type { DynoReading } from "@/lib/domain/bench/dynoTypes";
import { type LambdaReading, readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { dynoRows, lambdaColumns } from "@/lib/schemas/benchLogRead";
import type { DynoInput, LambdaInput } from "@/lib/schemas/benchLogs";

/** A dyno file read and its runs compared. Throws Refusal. */
export function readDynoLog(input: DynoInput): DynoReading {
  const { rows, terms } = dynoRows(input);
  return readDyno(rows, terms);
}

/** A lambda log read into bins. Throws Refusal. */
export function readRiddenLog(input: Omit<LambdaInput, "bike" | "act">): LambdaReading {
  return readLambdaLog(lambdaColumns(input).log);
}
