import { basisPoints } from "../money/round";
import type { PriceLine } from "./facts";

/** (net - cost) / net in basis points, half away from zero; null where a cost is missing or nothing is charged. */
export function marginBp(netMinor: number, costMinor: number | null): number | null {
  return costMinor === null || netMinor === 0 ? null : basisPoints(netMinor - costMinor, netMinor);
}

/**
 * Whether less is left of a net amount than a least margin asks for. Where nothing is charged, any cost is below it; costs that
 * nobody knows can only make it worse. Minor units and basis points.
 */
export function belowLeast(netMinor: number, costMinor: number, leastBp: number): boolean {
  return (netMinor - costMinor) * 10_000 < netMinor * leastBp;
}

/** Cost of lines: the sum of known costs, and whether every cost is known. */
export function costOf(lines: readonly PriceLine[]): {
  readonly costMinor: number;
  readonly complete: boolean;
} {
  const costMinor = lines.reduce((sum, l) => sum + (l.costMinor ?? 0), 0);
  return { costMinor, complete: lines.every((l) => l.costMinor !== null) };
}

const named = (l: PriceLine) => (l.kind === "part" ? `${l.name} (${l.key})` : l.name);

/** What someone who may see margins should look at before the quote goes out. */
export function marginWarnings(
  lines: readonly PriceLine[],
  margin: number | null,
  minimumBp: number,
): readonly string[] {
  const noCost = lines.filter((l) => l.costMinor === null);
  const atLoss = lines.filter(
    (l) => l.costMinor !== null && l.kind !== "discount" && !l.kit && l.netMinor < l.costMinor,
  );
  return [
    ...noCost.map((l) => `${named(l)} has no cost, so the margin is unknown.`),
    ...atLoss.map((l) => `${named(l)} is sold below its cost.`),
    ...kitsAtLoss(lines).map((name) => `The kit “${name}” is sold below its cost.`),
    ...(margin !== null && margin < minimumBp
      ? [`The margin of ${margin / 100} % is below the shop's minimum of ${minimumBp / 100} %.`]
      : []),
  ];
}

/** A kit is judged as a whole: how its price falls on its parts says nothing of any of them. */
function kitsAtLoss(lines: readonly PriceLine[]): string[] {
  const kits = Map.groupBy(
    lines.filter((l) => l.kit),
    (l) => `${l.work ?? ""} ${l.kit?.code ?? ""}`,
  );
  return [...kits.values()].flatMap((parts) => {
    const sum = (of: (l: PriceLine) => number) => parts.reduce((all, l) => all + of(l), 0);
    const name = parts[0]?.kit?.name ?? "";
    return sum((l) => l.netMinor) < sum((l) => l.costMinor ?? 0) ? [name] : [];
  });
}
