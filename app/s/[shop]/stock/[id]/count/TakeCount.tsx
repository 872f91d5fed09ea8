"use client";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { chosen } from "@/lib/schemas/chosenBin";
import { takeCount } from "../../actions";

export interface TakeCountProps {
  shop: string;
  partId: number;
  /** As typed, to be sent on. */
  typed: string;
  /** The bin that was counted. */
  bin: string;
  /** What lies there by the ledger. */
  thereMilli: number;
  counted: string;
  ledger: string;
  /** Nothing where the bin agrees. */
  variance: string | null;
  /** What is reserved beyond what there would be. */
  missing: string | null;
}

/** The variance beside what was counted; taking it writes one move. */
export function TakeCount({ shop, partId, typed, bin, thereMilli, ...shown }: TakeCountProps) {
  const { counted, ledger, variance, missing } = shown;
  return (
    <div className="max-w-[32rem]">
      <Facts
        rows={[
          { name: "Counted", value: counted, mono: true },
          { name: "The ledger says", value: ledger, mono: true },
          { name: "Variance", value: variance ?? "none", mono: true, strong: true },
        ]}
      />
      {missing && (
        <Note title="More is reserved than there is.">
          {missing} will be short: the newest jobs lose it first, and get it back from the next delivery.
        </Note>
      )}
      <Form
        action={takeCount}
        shop={shop}
        hidden={{
          partId: String(partId),
          counted: typed,
          bin: chosen(bin),
          seenMilli: String(thereMilli),
        }}
        label="Take the count"
        className="mt-4"
      >
        {variance && (
          <TextField name="why" label="What may have happened" hint="If you know; the ledger keeps it." />
        )}
        <div className="flex flex-wrap gap-2.5">
          <LinkButton href={`/s/${shop}/stock/${partId}/count?bin=${encodeURIComponent(bin)}`}>
            Count again
          </LinkButton>
          <SubmitButton>{variance ? "Take the count" : "Note that it agrees"}</SubmitButton>
        </div>
      </Form>
    </div>
  );
}
