"use client";
import { cx } from "@/app/_ui/cx";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextField } from "@/app/_ui/TextField";
import { priceText } from "@/lib/domain/money/scale";
import { receiveDelivery } from "../actions";

export interface OpenLine {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly bin: string;
  readonly open: string;
  readonly costE4: number | null;
}

export interface ReceiveFormProps {
  shop: string;
  orderId: number;
  currency: string;
  withCost: boolean;
  lines: readonly OpenLine[];
  /** Bins in use, to choose from. */
  bins: readonly string[];
}

/** What came, line by line: filled in as ordered, to be changed to what lies in the box. */
export function ReceiveForm({ shop, orderId, currency, withCost, lines, bins }: ReceiveFormProps) {
  return (
    <Form
      action={receiveDelivery}
      shop={shop}
      hidden={{ orderId: String(orderId) }}
      label="Receive a delivery"
    >
      <Suggestions id="bins" values={bins} />
      <ul>
        {lines.map((line) => (
          <li
            key={line.id}
            className={cx(
              "grid gap-x-5 border-hair border-b pt-3",
              withCost
                ? "sm:grid-cols-[minmax(0,1fr)_13rem_9rem_8rem]"
                : "sm:grid-cols-[minmax(0,1fr)_13rem_8rem]",
            )}
          >
            <p className="pb-2">
              <span className="font-mono font-semibold">{line.code}</span> {line.name}
              <span className="block text-[14px] text-soft">{line.open} open</span>
            </p>
            <NumberField
              name={`lines.${line.id}.quantity`}
              label="Came"
              unit={line.unit === "each" ? undefined : line.unit}
              initial={line.open}
              min={0}
              hint="Empty: none of it."
            />
            {withCost && (
              <TextField
                name={`lines.${line.id}.cost`}
                label={`Cost of one, ${currency}`}
                initial={line.costE4 === null ? "" : priceText(line.costE4, currency)}
                inputMode="decimal"
                mono
              />
            )}
            <TextField
              name={`lines.${line.id}.bin`}
              label="Into bin"
              initial={line.bin}
              list="bins"
              mono
              hint="Empty: its usual one."
            />
          </li>
        ))}
      </ul>
      <div className="mt-4 max-w-md">
        <TextField name="why" label="Delivery note" hint="Its number, if there is one." />
        <SubmitButton size="act">Receive</SubmitButton>
      </div>
    </Form>
  );
}
