import { reach } from "./cycle";
import type { Problem } from "./problem";
import type { Operation, Recipe } from "./recipe";

/** Problems of operations and accesses: minutes, access missing, and accesses that can never be open together. */
export function brokenOperations(recipe: Recipe): Problem[] {
  // Of two with one key the first counts; that there are two is said elsewhere.
  const byKey = new Map(recipe.accesses.toReversed().map((access) => [access.key, access]));
  const needsOf = (key: string) => byKey.get(key)?.needs ?? [];
  const nameOf = (key: string) => byKey.get(key)?.name ?? key;
  const wrongMinutes = (minutes: number, least: number) => !Number.isInteger(minutes) || minutes < least;
  const apart = (
    keys: readonly string[],
    where: string,
    kind: "operation" | "access",
    key: string,
  ): Problem[] => {
    const together = reach(keys, needsOf);
    const found = recipe.accesses
      .filter((access) => together.has(access.key))
      .flatMap((access) =>
        access.excludes.filter((other) => together.has(other)).map((other) => [access.key, other]),
      )[0];
    if (!found) return [];
    const [one, other] = found.map((name) => `“${nameOf(name)}”`);
    return [
      {
        kind,
        message: `${where} needs ${one} and ${other} open at once, which exclude each other.`,
        names: [key, ...found],
        part: kind === "operation" ? "operations" : "accesses",
      },
    ];
  };
  const swarfInFuel = (operation: Operation): Problem[] => {
    if (!operation.makesSwarf) return [];
    const together = reach(operation.accesses, needsOf);
    const fuel = recipe.accesses.find((access) => together.has(access.key) && access.fuelOpen);
    return fuel
      ? [
          {
            kind: "operation",
            message: `Operation “${operation.name}” makes swarf and needs “${fuel.name}” open, where the fuel system is open.`,
            names: [operation.key, fuel.key],
            part: "operations",
          },
        ]
      : [];
  };
  return [
    ...recipe.operations.flatMap((operation): Problem[] => {
      const say = (message: string): Problem => ({
        kind: "operation",
        message: `Operation “${operation.name}” ${message}`,
        names: [operation.key],
        part: "operations",
      });
      return [
        ...(wrongMinutes(operation.minutes, 1) ? [say("needs whole minutes, at least one.")] : []),
        ...(operation.accesses.length === 0
          ? [say("names no access: say what must be open to reach it.")]
          : []),
        ...swarfInFuel(operation),
        ...apart(operation.accesses, `Operation “${operation.name}”`, "operation", operation.key),
      ];
    }),
    ...recipe.accesses.flatMap((access): Problem[] => [
      ...(wrongMinutes(access.openMinutes, 0) || wrongMinutes(access.closeMinutes, 0)
        ? [
            {
              kind: "access" as const,
              message: `Access “${access.name}” needs whole minutes to open and to close.`,
              names: [access.key],
              part: "accesses" as const,
            },
          ]
        : []),
      ...apart([access.key], `Access “${access.name}”`, "access", access.key),
    ]),
  ];
}
