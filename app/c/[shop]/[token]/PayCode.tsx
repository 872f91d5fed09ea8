import { QrCode } from "@/app/_documents/QrCode";
import { type EpcTransfer, epcCode } from "@/lib/domain/money/epcCode";
import { wordsIn } from "@/lib/words/words";

/** A transfer as a code for a bank's app, where the currency and the shop's account allow one. */
export function PayCode({ transfer, locale }: { transfer: EpcTransfer; locale: string }) {
  const code = epcCode(transfer);
  if (code === null) return null;
  const name = wordsIn(locale)("jobPage.payCode");
  return (
    <figure className="mt-3">
      <QrCode text={code} name={name} />
      <figcaption className="text-[14px] text-soft">{name}</figcaption>
    </figure>
  );
}
