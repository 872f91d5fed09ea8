import { TextField } from "@/app/_ui/TextField";
import { PresentPassword } from "../PresentPassword";

/** The present password, and a code where there is a second factor: asked again before it changes. */
export function GuardFields({ withCode }: { withCode: boolean }) {
  return (
    <>
      <PresentPassword />
      {withCode && (
        <TextField
          name="code"
          label="Code"
          hint="The six figures your app shows now, or a recovery code."
          autoComplete="one-time-code"
          maxLength={60}
          mono
          required
        />
      )}
    </>
  );
}
