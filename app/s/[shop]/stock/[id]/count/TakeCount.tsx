"use client";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { takeCount } from "../../actions";
import { amountText, signedText } from "../../amount";

export interface TakeCountProps {
  shop: string;
  partId: number;
  unit: string;
  locale: string;
  typed: string;
  countedMilli: number;
  onHandMilli: number;
  reservedMilli: number;
}

/** The variance beside what was counted; taking it writes one move. */
export function TakeCount({
  shop,
  partId,
  unit,
  locale,
  typed,
  countedMilli,
  onHandMilli,
  reservedMilli,
}: TakeCountProps) {
  const variance = countedMilli - onHandMilli;
  const missing = reservedMilli - countedMilli;
  return (
    <div className="max-w-[32rem]">
      <Facts
        rows={[
          { name: "Counted", value: amountText(countedMilli, unit, locale), mono: true },
          { name: "The ledger says", value: amountText(onHandMilli, unit, locale), mono: true },
          {
            name: "Variance",
            value: variance === 0 ? "none" : signedText(variance, unit, locale),
            mono: true,
            strong: true,
          },
        ]}
      />
      {missing > 0 && (
        <Note title="More is promised than lies there.">
          {amountText(missing, unit, locale)} will be short: the newest jobs lose it first, and get it back
          from the next delivery.
        </Note>
      )}
      <Form
        action={takeCount}
        shop={shop}
        hidden={{ partId: String(partId), counted: typed, seenMilli: String(onHandMilli) }}
        label="Take the count"
        className="mt-4"
      >
        {variance !== 0 && (
          <TextField name="why" label="What may have happened" hint="If you know; the ledger keeps it." />
        )}
        <div className="flex flex-wrap gap-2.5">
          <LinkButton href={`/s/${shop}/stock/${partId}/count`}>Count again</LinkButton>
          <SubmitButton>{variance === 0 ? "Note that it agrees" : "Take the count"}</SubmitButton>
        </div>
      </Form>
    </div>
  );
}
