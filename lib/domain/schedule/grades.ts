/** A person's labour grades as they are stored: codes, none where they work at every grade. */
export const gradesOf = (stored: unknown): readonly string[] =>
  Array.isArray(stored) ? stored.filter((code): code is string => typeof code === "string") : [];

/** Whether somebody who works at some grades (none: at every one) can do work of all that is needed. */
export const canDo = (grades: readonly string[], needed: readonly string[]): boolean =>
  grades.length === 0 || needed.every((code) => grades.includes(code));
