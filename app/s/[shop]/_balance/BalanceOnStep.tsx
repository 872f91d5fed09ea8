"use client";
import type { ComponentProps } from "react";
import { useScreen } from "@/app/_ui/Screen";
import { BalanceForm } from "./BalanceForm";

/** A balance read on the step of the card that is looked at, whichever that is by now. */
export function BalanceOnStep({
  jobId,
  ...form
}: Omit<ComponentProps<typeof BalanceForm>, "on"> & { jobId: number }) {
  const stepId = useScreen((view: { readonly step: { readonly id: number } | null }) => view.step?.id);
  return <BalanceForm {...form} on={stepId === undefined ? undefined : { jobId, stepId }} />;
}
