import { partedReading } from "../sheets/readingScale";
import { readingIn } from "../sheets/typedReading";

/** What a device knows of a step's open hold points, parts and jets, to tell whether it can be passed. */
export interface StepFacts {
  readonly holds: readonly {
    readonly id: number;
    readonly kind: string;
    readonly name: string;
    readonly unit: string;
    readonly low: number | null;
    readonly high: number | null;
    readonly measures: string;
    readonly asksCarburettor: boolean;
  }[];
  /** Reserved for the step and still to be accounted for. */
  readonly parts: readonly { readonly id: number; readonly name: string }[];
  /** Jets to be settled, by their place. */
  readonly jets: readonly { readonly at: number; readonly name: string }[];
}

export type Verdict =
  | { readonly is: "passes" }
  /** Readings outside their limits, in words: they are kept, and the job stops. */
  | { readonly is: "stops"; readonly outside: readonly string[] }
  /** What is missing or cannot be, by field. */
  | { readonly is: "lacks"; readonly fields: Readonly<Record<string, string>> };

/**
 * What a pass comes to, as far as the device can tell: what is not complete is refused here, so that it does not wait to be
 * refused; a reading outside its limits stops the job. All else the server decides. `fields` are the form's, as sent.
 */
export function judgePass(facts: StepFacts, fields: readonly (readonly [string, string])[]): Verdict {
  const values = (name: string) => fields.flatMap(([one, value]) => (one === name ? [value] : []));
  const value = (name: string) => values(name).at(-1)?.trim() ?? "";
  const ticked = new Set([...values("checks[]"), ...values("signatures[]")]);
  const lacks: Record<string, string> = {};
  const outside: string[] = [];
  for (const hold of facts.holds) {
    if (hold.kind !== "reading") {
      const name = hold.kind === "signature" ? "signatures[]" : "checks[]";
      if (!ticked.has(String(hold.id)))
        lacks[name] = `${hold.name} ${hold.kind === "signature" ? "needs your signature" : "is not ticked"}.`;
      continue;
    }
    const name = `readings.${hold.id}`;
    const typed = value(name);
    const parted = partedReading(typed);
    if (!parted) {
      lacks[name] = typed === "" ? `${hold.name} needs a reading.` : "Enter a number such as 3.15.";
      continue;
    }
    const read = readingIn(hold, parted.value, parted.unit || value(`units.${hold.id}`));
    if ("problem" in read) lacks[name] = read.problem;
    else if ((hold.low !== null && read.value < hold.low) || (hold.high !== null && read.value > hold.high))
      outside.push(`${hold.name} ${read.value}${hold.unit && ` ${hold.unit}`}`);
    if (hold.asksCarburettor && value(`carburettors.${hold.id}`) === "")
      lacks[`carburettors.${hold.id}`] = `Say which carburettor ${hold.name} was read on.`;
  }
  // As on the server: a reading outside its limits is kept and stops the job, whatever else is still open.
  const wrong = Object.keys(lacks).some(
    (name) => /^(readings|carburettors)\./.test(name) && value(name) !== "",
  );
  if (outside.length > 0 && !wrong) return { is: "stops", outside };
  for (const part of facts.parts) {
    const said = value(`parts.${part.id}`);
    if (said === "") lacks[`parts.${part.id}`] = `Say whether ${part.name} was used.`;
    else if (said === "not" && value(`why.${part.id}`).length < 3)
      lacks[`why.${part.id}`] = "Say why, in a few words.";
  }
  for (const jet of facts.jets)
    if (value(`jets.${jet.at}`) === "") lacks[`jets.${jet.at}`] = `Say which ${jet.name} was fitted.`;
  return Object.keys(lacks).length > 0 ? { is: "lacks", fields: lacks } : { is: "passes" };
}
