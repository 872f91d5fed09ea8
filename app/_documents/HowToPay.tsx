import { Facts } from "@/app/_ui/Facts";
import { type PayAsk, payCode, payRows } from "@/lib/domain/money/payAsk";
import { wordsIn } from "@/lib/words/words";
import { QrCode } from "./QrCode";

interface Props {
  ask: PayAsk;
  currency: string;
  /** What is to be paid. */
  amountMinor: number;
  locale: string;
}

/** Where to pay and with which reference; as a code for a bank's app where the currency and the account allow one. */
export function HowToPay({ ask, currency, amountMinor, locale }: Props) {
  const say = wordsIn(locale);
  const code = payCode(ask, currency, amountMinor);
  return (
    <>
      <Facts
        rows={payRows(ask).map(({ name, value }) => ({
          key: name,
          name: say(`paying.${name}`),
          value,
          mono: name !== "holder",
        }))}
      />
      {ask.note && <p className="mt-2 whitespace-pre-line">{ask.note}</p>}
      {code !== null && (
        <figure className="mt-3">
          <QrCode text={code} name={say("paying.code")} />
          <figcaption className="text-[14px] text-soft">{say("paying.code")}</figcaption>
        </figure>
      )}
    </>
  );
}
