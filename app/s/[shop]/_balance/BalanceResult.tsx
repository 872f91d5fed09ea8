import { figureText } from "@/app/_ui/format";
import { State } from "@/app/_ui/State";
import type { BalanceView } from "@/lib/data/jobs/balances";
import { BAND_WORDS } from "@/lib/domain/procedures/vacuum";

interface Props {
  readonly found: BalanceView;
  readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  readonly locale: string;
}

/** One balance: each carburettor with its share of the greatest, whether all stand in the band, and what to turn next. */
export function BalanceResult({ found, carburettors, locale }: Props) {
  const figure = (value: number) => figureText(Number(value.toPrecision(3)), locale);
  const share = (ratio: number) => figureText(ratio, locale, 2);
  const name = (position: number) =>
    carburettors.find((one) => one.position === position)?.label ?? `Carburettor ${position}`;
  const names = (positions: readonly number[]) => positions.map(name).join(" and ");
  const { next, unit } = found;
  return (
    <div className="mb-3">
      <table className="w-full max-w-[520px] border-collapse text-[15px]">
        <caption className="sr-only">Vacuum of each carburettor</caption>
        <thead className="text-[14px] text-soft">
          <tr>
            {["Carburettor", unit, "Below the greatest", "Ratio"].map((head, at) => (
              <th
                key={head}
                scope="col"
                className={`border-rule border-b py-1 font-semibold ${at === 0 ? "text-start" : "text-end"}`}
              >
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="font-mono">
          {found.readings.map(({ carburettor, value, below, ratio }) => (
            <tr key={carburettor} className="border-hair border-b">
              <th scope="row" className="py-1.5 text-start font-normal font-sans">
                {name(carburettor)}
              </th>
              <td className="text-end">{figureText(value, locale)}</td>
              <td className="text-end">{figure(below)}</td>
              <td className="text-end">{share(ratio)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="mt-2">
        <State shape={found.inBand ? "filled" : "triangle"} tone={found.inBand ? "pine" : "oxide"}>
          {found.inBand ? "in the band" : "not in the band"}
        </State>{" "}
        {figure(found.spread)} {unit} apart, ratio {share(found.ratio)}; wanted: up to {figure(found.band)}{" "}
        {unit}, {BAND_WORDS[found.bandFrom]}.
      </p>
      {next && (
        <p className="mt-1 border-brass border-l-4 bg-brass-wash px-3.5 py-2">
          <strong>
            Next: screw {next.screw}, between {names(next.sides[0])} and {names(next.sides[1])}.
          </strong>{" "}
          {names(next.greater)} {next.greater.length > 1 ? "have" : "has"} the greater vacuum, by{" "}
          {figure(next.difference)} {unit}: more closed. Open {next.greater.length > 1 ? "them" : "it"} a
          little or close the other, snap the throttle, let it settle, read again.
        </p>
      )}
    </div>
  );
}
