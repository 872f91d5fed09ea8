import { TextField } from "@/app/_ui/TextField";

/** The present password, asked again before something weighty. */
export function PresentPassword() {
  return (
    <TextField
      name="currentPassword"
      label="Present password"
      type="password"
      autoComplete="current-password"
      required
    />
  );
}
