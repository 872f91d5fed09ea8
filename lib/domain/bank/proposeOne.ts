import type { Finder, FoundItem } from "./references";
import { addingUpTo } from "./subset";
import type { Certainty, OpenItem, Proposal, Reason, WaitingLine } from "./types";

/** What is still open of an item, in minor units: less than at first once another line took some of it. */
export type LeftOf = (item: OpenItem) => number;

interface Open {
  readonly finder: Finder;
  /** By customer, what comes first first. */
  readonly ofCustomer: ReadonlyMap<number, readonly OpenItem[]>;
  /** By amount. */
  readonly ofAmount: (minor: number) => readonly OpenItem[];
  readonly leftOf: LeftOf;
}

/** What one line probably pays, of what is still open; null where nothing tells. The rules are judgement: README says them. */
export function proposeOne(line: WaitingLine, open: Open): Proposal | null {
  if (line.amountMinor <= 0) return null;
  const named = open.finder.byReference(line);
  return byReference(line, named, open) ?? byName(line, open) ?? byAmount(line, open);
}

const told = (found: readonly FoundItem[]): Reason[] =>
  found.map(({ by, item }) => ({ why: by, written: item.written }));

function byReference(line: WaitingLine, named: readonly FoundItem[], open: Open): Proposal | null {
  const { amountMinor } = line;
  const { leftOf } = open;
  const standing = named.filter(({ item }) => leftOf(item) > 0);
  const telling = standing.filter((one) => one.telling);
  const exactly = standing.filter(({ item }) => leftOf(item) === amountMinor);
  const [only] = exactly;
  if (only && exactly.length === 1)
    return made(line, open, [only.item], "certain", [...told([only]), { why: "exact" }]);
  if (exactly.length > 1) return null;
  if (telling.length === 0) return usedUp(line, named);
  const items = inOrder(telling.map((one) => one.item));
  if (new Set(items.map((item) => item.customerId)).size > 1) return null;
  const sum = items.reduce((so, item) => so + leftOf(item), 0);
  if (sum === amountMinor)
    return made(line, open, items, "certain", [...told(telling), { why: "sum", count: items.length }]);
  if (sum > amountMinor) return made(line, open, items, "likely", told(telling));
  const all = (open.ofCustomer.get(items[0]?.customerId ?? 0) ?? []).filter((item) => leftOf(item) > 0);
  const others = all.filter((item) => !items.includes(item));
  const more = others.filter((item) => leftOf(item) === amountMinor - sum);
  if (more.length === 1)
    return made(line, open, inOrder([...items, ...more]), "likely", [
      ...told(telling),
      { why: "sum", count: items.length + 1 },
    ]);
  return made(line, open, items, "likely", told(telling));
}

/** What the line names is paid already: nothing is proposed, but it is said. */
function usedUp(line: WaitingLine, named: readonly FoundItem[]): Proposal | null {
  const used = named.filter((one) => one.telling);
  if (used.length === 0) return null;
  return {
    lineId: line.id,
    certainty: "possible",
    takes: [],
    overMinor: 0,
    because: used.map(({ item }) => ({ why: "used", written: item.written })),
  };
}

function byName(line: WaitingLine, open: Open): Proposal | null {
  const { amountMinor } = line;
  const customers = open.finder.byName(line);
  const [customerId] = customers;
  if (customerId === undefined || customers.length > 1) return null;
  const items = (open.ofCustomer.get(customerId) ?? []).filter((item) => open.leftOf(item) > 0);
  const [first] = items;
  if (!first) return null;
  const name: Reason = { why: "name", name: first.customerName };
  const exactly = items.filter((item) => open.leftOf(item) === amountMinor);
  if (exactly.length === 1) return made(line, open, exactly, "likely", [name, { why: "exact" }]);
  if (exactly.length > 1) return made(line, open, exactly.slice(0, 1), "possible", [name, { why: "exact" }]);
  const places = addingUpTo(items.map(open.leftOf), amountMinor);
  if (places)
    return made(
      line,
      open,
      places.flatMap((at) => items[at] ?? []),
      "likely",
      [name, { why: "sum", count: places.length }],
    );
  return made(line, open, items, "possible", [name]);
}

function byAmount(line: WaitingLine, open: Open): Proposal | null {
  const exactly = open.ofAmount(line.amountMinor).filter((item) => open.leftOf(item) === line.amountMinor);
  return exactly.length === 1 ? made(line, open, exactly, "possible", [{ why: "amountAlone" }]) : null;
}

/** The line's money over the items, the first paid in full first; what is over is said, and what stays open. */
function made(
  line: WaitingLine,
  { leftOf }: Open,
  items: readonly OpenItem[],
  certainty: Certainty,
  because: readonly Reason[],
): Proposal | null {
  let left = line.amountMinor;
  const takes: { item: OpenItem; minor: number }[] = [];
  for (const item of items) {
    const minor = Math.min(left, leftOf(item));
    if (minor <= 0) continue;
    takes.push({ item, minor });
    left -= minor;
  }
  // A balance is kept with an invoice: what is over a deposit alone is for a person to place.
  if (left > 0 && !takes.some(({ item }) => item.kind === "invoice")) return null;
  const stays = takes.reduce((so, { item, minor }) => so + leftOf(item) - minor, 0);
  return {
    lineId: line.id,
    certainty,
    takes,
    overMinor: left,
    because: [
      ...because,
      ...(stays > 0 ? [{ why: "part", staysMinor: stays } as const] : []),
      ...(left > 0 ? [{ why: "over", overMinor: left } as const] : []),
    ],
  };
}

/** Invoices before deposits, the oldest first. */
export const inOrder = (items: readonly OpenItem[]): OpenItem[] =>
  [...items].sort(
    (one, two) =>
      Number(one.kind === "deposit") - Number(two.kind === "deposit") ||
      (one.since < two.since ? -1 : one.since > two.since ? 1 : one.id - two.id),
  );
