"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { freeReserved } from "../actions";

export function Release({
  shop,
  partId,
  reservationId,
  job,
}: {
  shop: string;
  partId: number;
  reservationId: number;
  job: string;
}) {
  return (
    <Form
      action={freeReserved}
      shop={shop}
      hidden={{ partId: String(partId), reservationId: String(reservationId) }}
      label={`Release from job ${job}`}
    >
      <SubmitButton tone="quiet">Release</SubmitButton>
    </Form>
  );
}
