import { TextField } from "@/app/_ui/TextField";

/** The present password, and a code where there is a second factor: asked again before it changes. */
export function GuardFields({ withCode }: { withCode: boolean }) {
  return (
    <>
      <TextField
        name="currentPassword"
        label="Present password"
        type="password"
        autoComplete="current-password"
        required
      />
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
