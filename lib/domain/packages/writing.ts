import type { Access, Operation, Option } from "./recipe";

/** An option with what most options leave empty. */
export const option = (
  key: string,
  group: string,
  name: string,
  plain: string,
  operations: readonly string[],
  more: Partial<Option> = {},
): Option => ({
  key,
  group,
  name,
  plain,
  operations,
  parts: [],
  changes: [],
  cautions: [],
  preset: false,
  roadUse: false,
  ...more,
});

/** An operation of the grade "workshop" with what most operations leave empty. `minutes` are whole minutes. */
export const operation = (
  key: string,
  name: string,
  instruction: string,
  minutes: number,
  accesses: readonly string[],
  more: Partial<Operation> = {},
): Operation => ({
  key,
  name,
  instruction,
  minutes,
  grade: "workshop",
  accesses,
  after: [],
  parts: [],
  holdPoints: [],
  cautions: [],
  tools: [],
  inspects: [],
  ...more,
});

/** What is opened and closed for work, in whole minutes, with what most accesses leave empty. */
export const access = (
  key: string,
  name: string,
  openMinutes: number,
  closeMinutes: number,
  more: Partial<Access> = {},
): Access => ({
  key,
  name,
  openMinutes,
  closeMinutes,
  needs: [],
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
  ...more,
});
