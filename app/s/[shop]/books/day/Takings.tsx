import { moneyText } from "@/app/_ui/moneyText";
import { RECKON_CELL, ReckonTable } from "@/app/_ui/ReckonTable";
import { type MethodTakings, partsOf } from "@/lib/domain/endOfDay/takings";
import { METHOD_NAMES } from "@/lib/schemas/endOfDay";

/** What came in and went out by each method; a column that holds nothing is left out. */
export function Takings({
  takings,
  currency,
  locale,
}: {
  takings: readonly MethodTakings[];
  currency: string;
  locale: string;
}) {
  const columns = partsOf(takings);
  const text = (minor: number) => (minor === 0 ? "" : moneyText(minor, currency, locale));
  return (
    <ReckonTable head={["How", ...columns.map((one) => one.name), `Together, ${currency}`]}>
      {takings.map((one) => (
        <tr key={one.method} className="border-hair border-b">
          <th scope="row" className="py-1.5 text-start font-normal">
            {METHOD_NAMES[one.method] ?? one.method}
            {one.roundingMinor !== 0 && (
              <span className="block text-[14px] text-soft">
                of which rounding to coins {moneyText(one.roundingMinor, currency, locale)}
              </span>
            )}
          </th>
          {columns.map(({ part, name, out }) => (
            <td key={name} className={RECKON_CELL}>
              {text(out ? 0 - one[part] : one[part])}
            </td>
          ))}
          <td className={`${RECKON_CELL} font-bold`}>{moneyText(one.netMinor, currency, locale)}</td>
        </tr>
      ))}
    </ReckonTable>
  );
}
