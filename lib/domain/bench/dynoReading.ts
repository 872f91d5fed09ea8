import { moistAir } from "../air/moist";
import { OutOfRange, Refusal } from "../refusal";
import { comparePulls, type Pull } from "../tuning/dyno";
import { powerFactor } from "../tuning/power";
import type { DynoReading, DynoRow, DynoTerms } from "./dynoTypes";

/** More runs than anybody makes in a day: with more, the column is another one. */
const MOST_RUNS = 100;

/**
 * Compares the runs of a dyno file before and after: each run corrected in its own mean air, then brought to one rpm grid.
 * Throws Refusal for more than 100 runs, a side without runs, or air that the chosen standard needs. Source: comparePulls, powerFactor.
 */
export function readDyno(rows: readonly DynoRow[], terms: DynoTerms): DynoReading {
  const after = new Set(terms.after.map(fold));
  const byRun = Map.groupBy(rows, (row) => row.run);
  const names = [...byRun.keys()];
  if (names.length > MOST_RUNS)
    throw new Refusal(
      `The file names ${names.length} runs; at most ${MOST_RUNS} can be compared.`,
      "Choose the column that names the run, or leave it out.",
    );
  const sideOf = (run: string) =>
    after.has(fold(run)) || (after.size === 0 && fold(run).startsWith("after")) ? "after" : "before";
  const unknown = terms.after.find((name) => !names.some((run) => fold(run) === fold(name)));
  if (unknown !== undefined)
    throw new Refusal(`The file has no run "${unknown}".`, `Its runs are: ${said(names)}.`, {
      after: `Choose among ${said(names)}.`,
    });
  const made = names.map((run) => oneRun(run, sideOf(run), byRun.get(run) ?? [], terms.standard));
  for (const side of ["before", "after"] as const)
    if (!made.some((m) => m.run.side === side))
      throw new Refusal(
        `No run counts as made ${side} the work.`,
        `Say which runs were made after it: the file has ${said(names)}.`,
        { after: `Name the runs made after, of ${said(names)}.` },
      );
  const pulls = (side: "before" | "after") => made.filter((m) => m.run.side === side).map((m) => m.pull);
  const { lowRpm, highRpm } = terms;
  const band =
    lowRpm === null && highRpm === null ? undefined : { lowRpm: lowRpm ?? 0, highRpm: highRpm ?? 25_000 };
  const comparison = comparePulls(pulls("before"), pulls("after"), band);
  return {
    standard: terms.standard,
    runs: made.map((m) => m.run),
    comparison,
    peak: { beforeNm: Math.max(...comparison.beforeNm), afterNm: Math.max(...comparison.afterNm) },
  };
}

const fold = (text: string) => text.trim().toLowerCase();
const said = (names: readonly string[]) =>
  names
    .slice(0, 12)
    .map((n) => n || "(blank)")
    .join(", ");

function oneRun(
  run: string,
  side: "before" | "after",
  rows: readonly DynoRow[],
  standard: DynoTerms["standard"],
) {
  const torque = rows.every((r) => r.torqueNm !== null);
  const rpm = rows.map((r) => r.rpm);
  const correction = standard === "none" ? null : powerFactor(airOfRun(run, rows), standard);
  const lambdas = rows.flatMap((r) => (r.lambda === null || !Number.isFinite(r.lambda) ? [] : [r.lambda]));
  const pull: Pull = {
    rpm,
    ...(torque
      ? { torqueNm: rows.map((r) => r.torqueNm ?? Number.NaN) }
      : { powerW: rows.map((r) => r.powerW ?? Number.NaN) }),
    factor: correction?.factor ?? 1,
  };
  return {
    pull,
    run: {
      run,
      side,
      rows: rows.length,
      factor: correction?.factor ?? 1,
      allowed: correction?.allowed ?? true,
      because: correction?.because ?? [
        { fact: "Power as it stands in the file", from: "no correction chosen" },
      ],
      lambda: lambdas.length > 0 ? lambdas.reduce((a, b) => a + b, 0) / lambdas.length : null,
    },
  };
}

function airOfRun(run: string, rows: readonly DynoRow[]) {
  const mean = (pick: (r: DynoRow) => number | null, name: string, field: string) => {
    const values = rows.map(pick);
    if (values.some((v) => v === null))
      throw new Refusal(
        `The correction needs ${name} of run "${run}".`,
        `Choose its column, or enter it for the whole file.`,
        { [field]: `Needed for the correction.` },
      );
    return values.reduce<number>((a, v) => a + (v ?? 0), 0) / values.length;
  };
  const temperatureK = mean((r) => r.temperatureK, "the temperature", "temperature");
  const pressurePa = mean((r) => r.pressurePa, "the pressure", "pressure");
  const humidity = mean((r) => r.humidity ?? 0.5, "the humidity", "humidity");
  if (humidity > 1) throw new OutOfRange("relative humidity", humidity * 100, 0, 100, "%");
  return {
    temperatureK,
    pressurePa,
    dryPressurePa: moistAir(pressurePa, temperatureK, humidity).dryPressurePa,
  };
}
