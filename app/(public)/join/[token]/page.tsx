import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { isKnown } from "@/lib/data/people/account";
import { invitationOf } from "@/lib/data/people/members";
import { ROLE_WORDS } from "@/lib/domain/access/permissions";
import { join } from "../../actions";

export const metadata: Metadata = { title: "Join a shop" };

export default async function Join({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const invitation = await invitationOf(token, new Date());
  if (!invitation)
    return (
      <div className="mx-auto max-w-[480px]">
        <PageHead title="This invitation is used or over" />
        <p>Ask the shop's owner for a new one.</p>
      </div>
    );
  const known = await isKnown(invitation.email);
  return (
    <div className="mx-auto max-w-[480px]">
      <PageHead title={`Join ${invitation.shop.name}`} sub={ROLE_WORDS[invitation.role]} />
      <p className="mb-4">
        For {invitation.email}.{" "}
        {known ? "You have a sign-in here: confirm it with your password." : "Make your sign-in."}
      </p>
      <Form action={join} label="Join the shop" hidden={{ token }} className="grid gap-4">
        {!known && <TextField name="name" label="Your name" autoComplete="name" required />}
        <TextField
          name="password"
          label="Password"
          type="password"
          autoComplete={known ? "current-password" : "new-password"}
          hint={known ? undefined : "At least 10 characters. A few words are fine."}
          required
        />
        {known && (
          <TextField
            name="code"
            label="Code, if you use a second factor"
            hint="The six figures your app shows, or a recovery code."
            autoComplete="one-time-code"
            maxLength={60}
            mono
          />
        )}
        <SubmitButton>Join</SubmitButton>
      </Form>
    </div>
  );
}
