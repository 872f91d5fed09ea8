"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { keepSupplier } from "../actions";

export interface SupplierValues {
  id: number;
  version: number;
  name: string;
  email: string;
  phone: string;
  address: string;
  customerNumber: string;
  leadDays: number | null;
  note: string;
  active: boolean;
}

export function SupplierForm({ shop, supplier }: { shop: string; supplier: SupplierValues | null }) {
  const hidden: Record<string, string> = supplier
    ? { id: String(supplier.id), version: String(supplier.version) }
    : { active: "true" };
  return (
    <Form action={keepSupplier} shop={shop} hidden={hidden} label="Supplier" className="max-w-[44rem]">
      <div className="grid gap-x-5 sm:grid-cols-2">
        <TextField name="name" label="Name" initial={supplier?.name} required />
        <TextField
          name="email"
          label="E-mail"
          type="email"
          initial={supplier?.email}
          hint="Orders are written to it."
        />
        <TextField name="phone" label="Telephone" type="tel" initial={supplier?.phone} />
        <TextField name="customerNumber" label="Your number there" initial={supplier?.customerNumber} mono />
        <NumberField
          name="leadDays"
          label="Days to arrive"
          initial={supplier?.leadDays ?? undefined}
          min={0}
        />
      </div>
      <TextArea name="address" label="Address" initial={supplier?.address} />
      <TextField name="note" label="Note" initial={supplier?.note} />
      {supplier && <CheckField name="active" value="true" initial={supplier.active} label="In use" />}
      <SubmitButton size="act">Save</SubmitButton>
    </Form>
  );
}
