"use client";
import { Link } from "./Link";
import { Shape } from "./Shape";
import { words } from "./words";

export interface JetSize {
  readonly size: number;
  readonly label: string;
  readonly onHand: number;
  readonly reserved: number;
  /** Reorder point; null when none is kept. */
  readonly point?: number | null | undefined;
  readonly href?: string | undefined;
}

export interface JetDrawerProps {
  /** What lies in the drawer: "main jets, large round". */
  name: string;
  sizes: readonly JetSize[];
}

const MOST = 8;
const PIP = 7;

/** A box for each on hand, one under the other. */
const pips = (from: number, to: number): string =>
  Array.from(
    { length: Math.max(0, Math.ceil(to) - from) },
    (_, n) => `M14.5 ${60 + (from + n) * PIP}h19v5h-19z`,
  ).join("");

function said(name: string, jet: JetSize): string {
  const below = jet.point != null && jet.onHand - jet.reserved < jet.point;
  return [
    `${name} ${jet.label}`,
    `${jet.onHand} ${words.onHand}`,
    jet.reserved > 0 ? `${jet.reserved} ${words.reserved}` : "",
    below ? `${words.belowPoint} ${jet.point}` : "",
  ]
    .filter(Boolean)
    .join(", ");
}

function Jet({ jet, bore }: { jet: JetSize; bore: number }) {
  const shown = Math.min(jet.onHand, MOST);
  const taken = Math.min(shown, Math.ceil(jet.reserved));
  const below = jet.point != null && jet.onHand - jet.reserved < jet.point;
  const line = jet.point != null && jet.point > 0 && jet.point <= MOST ? 60 + jet.point * PIP - 1 : undefined;
  return (
    <svg
      aria-hidden="true"
      viewBox="0 0 48 126"
      width="48"
      height="126"
      className="mx-auto block text-[13px]"
    >
      <circle cx="24" cy="17" r="14.5" strokeWidth="1.2" className="fill-brass-fill stroke-ink" />
      <circle cx="24" cy="17" r={bore} strokeWidth="1.2" className="fill-paper stroke-ink" />
      <text x="24" y="50" textAnchor="middle" className="fill-ink font-mono">
        {jet.label}
      </text>
      <path d={pips(0, taken)} className="fill-ink stroke-ink" />
      <path d={pips(taken, shown)} className="fill-none stroke-ink" />
      {line !== undefined && (
        <path d={`M8 ${line}h5M35 ${line}h5`} strokeWidth="1.5" className="stroke-brass" />
      )}
      {jet.onHand > MOST && (
        <text x="24" y={60 + MOST * PIP + 9} textAnchor="middle" className="fill-soft font-mono text-[12px]">
          {jet.onHand}
        </text>
      )}
      {below && jet.onHand <= MOST && <path d={`M24 ${64 + shown * PIP}l5 8h-10z`} className="fill-oxide" />}
    </svg>
  );
}

/** Jet sizes as they lie in the drawer: the hole drawn by size, a pip for each on hand, filled when reserved, a tick at the reorder point. */
export function JetDrawer({ name, sizes }: JetDrawerProps) {
  const least = Math.min(...sizes.map((jet) => jet.size));
  const most = Math.max(...sizes.map((jet) => jet.size));
  const bore = (size: number) => (most > least ? 5 + ((size - least) / (most - least)) * 4.5 : 7);
  return (
    <figure>
      <figcaption className="mb-1 flex flex-wrap items-center gap-x-2 text-[13px] text-soft">
        {name} · filled = {words.reserved} · <Shape shape="triangle" tone="oxide" /> below its point, the tick
      </figcaption>
      <ul className="grid grid-cols-[repeat(auto-fill,minmax(48px,1fr))] gap-y-2 sm:grid-cols-[repeat(auto-fill,minmax(42px,1fr))] pointer-coarse:grid-cols-[repeat(auto-fill,minmax(48px,1fr))]">
        {sizes.map((jet) => (
          <li key={jet.label}>
            {jet.href ? (
              <Link href={jet.href} aria-label={said(name, jet)} className="block hover:bg-sheet">
                <Jet jet={jet} bore={bore(jet.size)} />
              </Link>
            ) : (
              <div>
                <span className="sr-only">{said(name, jet)}</span>
                <Jet jet={jet} bore={bore(jet.size)} />
              </div>
            )}
          </li>
        ))}
      </ul>
    </figure>
  );
}
