import { cx } from "./cx";
import { moneyText } from "./moneyText";

export interface MoneyProps {
  minor: number;
  currency: string;
  locale: string;
  /** Says the currency's code too. */
  code?: boolean | undefined;
  /** Money that comes off is pine. */
  credit?: boolean | undefined;
  className?: string | undefined;
}

/** Money from integer minor units. */
export function Money({ minor, currency, locale, code, credit, className }: MoneyProps) {
  return (
    <span
      className={cx(
        "whitespace-nowrap font-mono tabular-nums",
        credit && minor < 0 && "text-pine",
        className,
      )}
    >
      {moneyText(minor, currency, locale, code)}
    </span>
  );
}
