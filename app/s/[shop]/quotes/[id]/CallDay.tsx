"use client";
import type { ComponentProps } from "react";
import { Dialog } from "@/app/_ui/Dialog";
import { Fetched } from "@/app/_ui/Fetched";
import { dateText } from "@/app/_ui/format";
import { liveModule } from "@/app/_ui/liveModule";
import type { CallDayForm } from "./CallDayForm";

const FORM = liveModule(() => import("./CallDayForm"));

/** The day on which to call about a quote, and the dialog that sets it. */
export function CallDay({ locale, ...form }: ComponentProps<typeof CallDayForm> & { locale: string }) {
  return (
    <Dialog
      trigger={form.on ? `Call on ${dateText(form.on, locale)}` : "Set a day to call"}
      title="When to call about it"
    >
      <Fetched of={FORM}>{({ CallDayForm }) => <CallDayForm {...form} />}</Fetched>
    </Dialog>
  );
}
