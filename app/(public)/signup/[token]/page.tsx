import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { signUpOf } from "@/lib/data/people/signUps";
import { finishSignUp } from "../../actions";

export const metadata: Metadata = { title: "Open a shop" };

export default async function FinishSignUp({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const found = await signUpOf(token, new Date());
  if (!found)
    return (
      <div className="mx-auto max-w-[480px]">
        <PageHead title="This link is used or over" />
        <p>
          <Link href="/signin">Sign in</Link> if your shop is open already, or{" "}
          <Link href="/signup">open it again</Link>.
        </p>
      </div>
    );
  return (
    <div className="mx-auto max-w-[480px]">
      <PageHead title={`Open ${found.shopName}`} sub="You become its owner." />
      <p className="mb-4">
        For {found.email}. Enter the password you chose, so that nobody else opens it for you.
      </p>
      <Form action={finishSignUp} label={`Open ${found.shopName}`} hidden={{ token }} className="grid gap-4">
        <TextField
          name="currentPassword"
          label="Password"
          type="password"
          autoComplete="current-password"
          required
        />
        <SubmitButton>Open the shop</SubmitButton>
      </Form>
    </div>
  );
}
