import { QrCode } from "@/app/_documents/QrCode";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { inFours } from "@/lib/domain/access/codes";
import { turnOnFactor } from "../actions";
import { NewCodes } from "./NewCodes";

/** The second step of setting up: the secret for the app, and its first code. */
export function SetUp({ secret, address, to }: { secret: string; address: string; to: string }) {
  return (
    <Section title="Set it up">
      <Form action={turnOnFactor} label="Turn the second factor on">
        <NewCodes to={to}>
          <ol className="mb-5 grid gap-5">
            <li>
              <p className="mb-2">
                <strong>1.</strong> In the authenticator app on your phone, add an account and point the
                camera here.
              </p>
              <QrCode text={address} name="QR code for your authenticator app" />
              <p className="mt-2">
                Or type this key there: <span className="break-words font-mono">{inFours(secret, " ")}</span>
              </p>
            </li>
            <li>
              <p className="mb-2">
                <strong>2.</strong> Enter the six figures that the app shows now.
              </p>
              <TextField
                name="code"
                label="Code"
                inputMode="numeric"
                autoComplete="one-time-code"
                maxLength={60}
                mono
                required
              />
            </li>
          </ol>
          <SubmitButton>Turn it on</SubmitButton>
        </NewCodes>
      </Form>
    </Section>
  );
}
