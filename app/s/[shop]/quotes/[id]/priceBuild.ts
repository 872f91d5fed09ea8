import type { PieceLook, PricePiece } from "@/app/_ui/PriceBar";
import type { PricedQuote, PriceLine } from "@/lib/domain/pricing/facts";

/** What of a price is drawn; costs are absent for those who may not see them. */
export type BuiltPrice = Pick<PricedQuote, "pricesIncludeTax" | "taxMinor" | "netMinor"> & {
  readonly lines: readonly Pick<PriceLine, "key" | "kind" | "shownMinor">[];
};

type Charged = readonly [
  label: string,
  look: PieceLook,
  takes: (line: BuiltPrice["lines"][number]) => boolean,
];

const byHand = (line: { key: string; kind: string }) => line.kind === "fixed" && line.key.startsWith("hand-");
const CHARGED: readonly Charged[] = [
  ["Labour", "solid", (l) => l.kind === "labour"],
  ["Parts", "wanted", (l) => l.kind === "part"],
  ["Fixed prices", "slanted", (l) => l.kind === "fixed" && !byHand(l)],
  ["Outside work", "back", (l) => l.kind === "outside"],
  ["Lines by hand", "across", byHand],
  ["Sundries", "dotted", (l) => l.kind === "sundries"],
];

/**
 * A price in two rows of one length. Charged: what lines of each kind show, and tax where it comes on top. Of this: what is left
 * without tax (cost and margin, where `costMinor` is told and not above it), the tax, and what is taken off. Null where nothing is charged.
 */
export function priceBuild(price: BuiltPrice, costMinor: number | null) {
  const sum = (takes: Charged[2]) => price.lines.filter(takes).reduce((all, l) => all + l.shownMinor, 0);
  const piece = (label: string, look: PieceLook, minor: number): PricePiece[] =>
    minor > 0 ? [{ key: label.toLowerCase().replaceAll(" ", "-"), label, look, minor }] : [];
  const charged = CHARGED.flatMap(([label, look, takes]) => piece(label, look, sum(takes)));
  if (charged.length === 0) return null;
  const { netMinor, taxMinor, pricesIncludeTax } = price;
  const told = costMinor !== null && costMinor > 0 && costMinor <= netMinor;
  const tax = piece("Tax", "upright", taxMinor);
  return [
    { name: "Charged", pieces: pricesIncludeTax ? charged : [...charged, ...tax] },
    {
      name: "Of this",
      pieces: [
        ...(told
          ? [...piece("Cost", "calm", costMinor), ...piece("Margin", "across", netMinor - costMinor)]
          : piece("Without tax", "calm", netMinor)),
        ...tax,
        ...piece("Taken off", "off", -sum((l) => l.kind === "discount")),
      ],
    },
  ];
}
