import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { setNewPassword } from "../../actions";

export const metadata: Metadata = { title: "New password" };

export default async function NewPassword({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  return (
    <div className="mx-auto max-w-[420px]">
      <PageHead title="New password" />
      <Form action={setNewPassword} label="Set a new password" hidden={{ token }} className="grid gap-4">
        <TextField
          name="password"
          label="New password"
          type="password"
          autoComplete="new-password"
          hint="At least 10 characters. A few words are fine."
          required
        />
        <SubmitButton>Set it</SubmitButton>
      </Form>
    </div>
  );
}
