"use client";
import { type ComponentProps, lazy, Suspense } from "react";
import { useScreen } from "@/app/_ui/Screen";

/** Of bikes with several carburettors. */
const BalanceForm = lazy(async () => ({ default: (await import("./BalanceForm")).BalanceForm }));

/** A balance read on the step of the card that is looked at, whichever that is by now. */
export function BalanceOnStep({
  jobId,
  ...form
}: Omit<ComponentProps<typeof BalanceForm>, "on"> & { jobId: number }) {
  const stepId = useScreen((view: { readonly step: { readonly id: number } | null }) => view.step?.id);
  return (
    <Suspense>
      <BalanceForm {...form} on={stepId === undefined ? undefined : { jobId, stepId }} />
    </Suspense>
  );
}
