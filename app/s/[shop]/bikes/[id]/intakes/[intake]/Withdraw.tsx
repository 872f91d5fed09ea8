import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { withdraw } from "../actions";

/** Takes a wrong intake out of everything that counts with it. */
export function Withdraw({ shop, intakeId, version }: { shop: string; intakeId: number; version: number }) {
  return (
    <Dialog trigger="Withdraw it" triggerTone="quiet" title="Withdraw this intake">
      <Form
        action={withdraw}
        shop={shop}
        hidden={{ intakeId: String(intakeId), version: String(version) }}
        label="Withdraw this intake"
      >
        <TextField name="why" label="What is wrong with it" maxLength={500} required />
        <SubmitButton>Withdraw</SubmitButton>
      </Form>
    </Dialog>
  );
}
