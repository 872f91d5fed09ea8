import type { ItemPart, Rule } from "./recipe";

export interface Problem {
  readonly kind:
    | "name"
    | "duplicate"
    | "operation"
    | "access"
    | "setting"
    | "cycle"
    | "clash"
    | "rule"
    | "undecided";
  /** What is wrong and where, in a sentence. */
  readonly message: string;
  /** Keys of the options, operations, accesses or groups concerned. */
  readonly names: readonly string[];
  /** The list that the first of `names` stands in; absent where several lists are concerned alike. */
  readonly part?: ItemPart;
  /** The rules concerned: of a clash, each of the smallest set. */
  readonly rules?: readonly Rule[];
}

/** Keys of all options that a rule names. */
export function optionsOf(rule: Rule): string[] {
  if (rule.kind === "needs") return [rule.option, ...rule.anyOf];
  if (rule.kind === "excludes") return [rule.option, rule.other];
  if (rule.kind === "only when") return [rule.option];
  return [rule.option, rule.without, rule.with].filter((key) => key !== undefined);
}
