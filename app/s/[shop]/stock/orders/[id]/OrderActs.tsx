"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { addOrderLine, cancelWhole, placeDraft } from "../actions";

interface OrderOf {
  shop: string;
  order: { id: number; number: string; version: number };
}

const hiddenOf = (order: OrderOf["order"]) => ({ orderId: String(order.id), version: String(order.version) });

export function PlaceOrder({ shop, order, today, mailTo }: OrderOf & { today: string; mailTo: string }) {
  return (
    <Dialog trigger="Place the order" triggerTone="main" title={`Place order ${order.number}`}>
      <Form action={placeDraft} shop={shop} hidden={hiddenOf(order)} label="Place the order">
        <DateField
          name="dueOn"
          label="Due"
          min={today}
          hint="Empty: each line by its supplier's days to arrive."
        />
        <TextField name="note" label="Note on the order" />
        <CheckField
          name="mail"
          value="true"
          initial={mailTo !== ""}
          disabled={mailTo === ""}
          label="Write a mail to the supplier"
          detail={mailTo || "The supplier has no e-mail address yet."}
        />
        <SubmitButton size="act">Place it</SubmitButton>
      </Form>
    </Dialog>
  );
}

export function CancelOrder({ shop, order, draft }: OrderOf & { draft: boolean }) {
  const word = draft ? "Give the draft up" : "Cancel what is open";
  return (
    <Dialog trigger={word} title={word}>
      <Form action={cancelWhole} shop={shop} hidden={hiddenOf(order)} label={word}>
        <TextField name="why" label="Reason" required />
        <SubmitButton size="act" tone="danger">
          {word}
        </SubmitButton>
      </Form>
    </Dialog>
  );
}

/** A part by its code or the supplier's, put on a draft. */
export function AddLine({ shop, supplierId }: { shop: string; supplierId: number }) {
  return (
    <Form
      action={addOrderLine}
      shop={shop}
      hidden={{ supplierId: String(supplierId) }}
      label="Add a line"
      className="mt-4 grid items-end gap-x-4 sm:grid-cols-[minmax(0,1fr)_14rem_auto]"
    >
      <TextField name="code" label="Part" mono hint="Its code, or the supplier's." required />
      <NumberField name="quantity" label="How much" initial={1} min={0} required />
      <div className="mb-4">
        <SubmitButton tone="second">Add the line</SubmitButton>
      </div>
    </Form>
  );
}
