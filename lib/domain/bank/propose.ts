import { inOrder, proposeOne } from "./proposeOne";
import { finderOf } from "./references";
import type { Certainty, OpenItem, Proposal, WaitingLine } from "./types";

const RANK: Readonly<Record<Certainty, number>> = { certain: 0, likely: 1, possible: 2 };
const keyOf = ({ kind, id }: OpenItem) => `${kind} ${id}`;

/**
 * What each line probably pays. Together the lines never take more of an item than is open of it: what is certain is placed first,
 * then the older line, so that the order in which lines and items are given changes nothing. Lines without a proposal are left out.
 */
export function propose(
  lines: readonly WaitingLine[],
  items: readonly OpenItem[],
): ReadonlyMap<number, Proposal> {
  const sorted = inOrder(items);
  const left = new Map(sorted.map((item) => [keyOf(item), item.leftMinor]));
  const amounts = Map.groupBy(sorted, (item) => item.leftMinor);
  const open = {
    finder: finderOf(sorted),
    ofCustomer: Map.groupBy(sorted, (item) => item.customerId),
    ofAmount: (minor: number) => amounts.get(minor) ?? [],
    leftOf: (item: OpenItem) => left.get(keyOf(item)) ?? 0,
  };
  const alone = new Map(lines.map((line) => [line.id, proposeOne(line, open)]));
  const rank = ({ id }: WaitingLine) => RANK[alone.get(id)?.certainty ?? "possible"];
  const inTurn = [...lines].sort(
    (one, two) =>
      rank(one) - rank(two) ||
      (one.bookedOn < two.bookedOn ? -1 : one.bookedOn > two.bookedOn ? 1 : one.id - two.id),
  );
  const proposals = new Map<number, Proposal>();
  for (const line of inTurn) {
    const found = proposeOne(line, open);
    if (!found) continue;
    proposals.set(line.id, found);
    for (const { item, minor } of found.takes) left.set(keyOf(item), open.leftOf(item) - minor);
  }
  return proposals;
}
