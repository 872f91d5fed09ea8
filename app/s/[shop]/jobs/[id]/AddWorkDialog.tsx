"use client";
import { Dialog } from "@/app/_ui/Dialog";
import { Fetched } from "@/app/_ui/Fetched";
import { liveModule } from "@/app/_ui/liveModule";
import type { AddWorkFormProps } from "./AddWorkForm";

const FORM = liveModule(() => import("./AddWorkForm"));

/** The button and the dialog that puts work and parts on a job. */
export function AddWorkDialog(props: AddWorkFormProps) {
  return (
    <Dialog trigger="Add work or parts" title="More on this job">
      <Fetched of={FORM}>{({ AddWorkForm }) => <AddWorkForm {...props} />}</Fetched>
    </Dialog>
  );
}
