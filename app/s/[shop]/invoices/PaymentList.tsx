import { DateText } from "@/app/_ui/DateText";
import { Money } from "@/app/_ui/Money";
import { METHOD_WORDS, PAYMENT_WORDS } from "@/lib/schemas/payments";

export interface PaymentRow {
  readonly id: number;
  readonly kind: keyof typeof PAYMENT_WORDS;
  readonly method: string;
  readonly amountMinor: number;
  readonly roundingMinor: number;
  readonly paidOn: string;
  readonly reference: string;
}

/** Money of a job in the order it moved; money that went back is below zero. */
export function PaymentList({
  payments,
  currency,
  locale,
}: {
  payments: readonly PaymentRow[];
  currency: string;
  locale: string;
}) {
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  return (
    <ul>
      {payments.map((payment) => (
        <li key={payment.id} className="flex items-baseline justify-between gap-4 border-hair border-b py-2">
          <span className="min-w-0">
            <DateText date={payment.paidOn} locale={locale} />, {PAYMENT_WORDS[payment.kind]},{" "}
            {METHOD_WORDS[payment.method as keyof typeof METHOD_WORDS] ?? payment.method}
            {(payment.reference || payment.roundingMinor !== 0) && (
              <span className="block text-[14px] text-soft">
                {payment.reference}{" "}
                {payment.roundingMinor !== 0 && <>cash rounding {money(payment.roundingMinor)}</>}
              </span>
            )}
          </span>
          {money(payment.kind === "refund" ? 0 - payment.amountMinor : payment.amountMinor)}
        </li>
      ))}
    </ul>
  );
}
