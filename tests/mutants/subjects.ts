/** The folders of lib/domain that are tested by mutation, each with the test files that know it. */
export const SUBJECTS: Readonly<Record<string, readonly string[]>> = {
  money: ["money*.test.ts"],
  tax: ["tax*.test.ts"],
  air: ["air*.test.ts"],
  labour: ["labour*.test.ts"],
  schedule: ["schedule*.test.ts", "reminder.test.ts"],
  pricing: ["pricing*.test.ts"],
  stock: ["stock*.test.ts", "arrival.test.ts", "labelFiles.test.ts"],
  plan: ["plan*.test.ts", "whileOpen.test.ts"],
  tuning: ["tuning-*.test.ts", "needle*.test.ts", "wear*.test.ts"],
};

/** Simulations that take too long to run for each mutant. */
export const TOO_LONG: readonly string[] = ["tuning-coverage.test.ts", "tuning-gain.test.ts"];
