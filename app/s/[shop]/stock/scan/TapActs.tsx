"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { binText } from "@/lib/domain/stock/bins";
import { chosen } from "@/lib/schemas/chosenBin";
import { receivePart, usePart } from "../actions";
import { OneTap, type Tap } from "../OneTap";

export interface TapActsProps {
  shop: string;
  partId: number;
  code: string;
  unit: string;
  free: boolean;
  /** Where it lies, the usual one first. */
  bins: readonly string[];
  mayUse: boolean;
  mayWrite: boolean;
  taps: readonly Tap[];
}

/** One tap each: use for a job, use a piece that is free, receive a piece. What is measured is not taken by ones. */
export function TapActs({ shop, partId, code, unit, free, bins, mayUse, mayWrite, taps }: TapActsProps) {
  const pieces = unit === "each";
  const hidden = { partId: String(partId), quantity: "1" };
  return (
    <div className="grid gap-3">
      {mayUse &&
        taps.map((tap) => (
          <OneTap
            key={`${tap.jobId} ${tap.reservationId}`}
            shop={shop}
            partId={partId}
            code={code}
            tap={tap}
            withTitle
          />
        ))}
      {mayUse &&
        free &&
        pieces &&
        (bins.length > 1 ? bins : [null]).map((bin) => (
          <Form
            key={bin}
            action={usePart}
            shop={shop}
            hidden={{ ...hidden, why: "scanned, for no job", ...(bin === null ? {} : { from: chosen(bin) }) }}
            label={bin === null ? "Use without a job" : `Use without a job from ${binText(bin)}`}
          >
            <SubmitButton size="act" tone="second" className="w-full">
              Use 1, for no job{bin !== null && `, from ${binText(bin)}`}
            </SubmitButton>
          </Form>
        ))}
      {mayWrite && pieces && (
        <Form action={receivePart} shop={shop} hidden={{ ...hidden, why: "scanned" }} label="Receive">
          <SubmitButton size="act" tone="second" className="w-full">
            Receive 1
          </SubmitButton>
        </Form>
      )}
    </div>
  );
}
