"use client";
import { signIn } from "next-auth/react";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { FormState } from "@/lib/schemas/formState";

export function SignInForm({ to }: { to: string }) {
  const enter = async (before: FormState, data: FormData): Promise<FormState> => {
    const email = String(data.get("email") ?? "").trim();
    const password = String(data.get("password") ?? "");
    const seq = before.seq + 1;
    const fields = {
      ...(email ? {} : { email: "Enter your address." }),
      ...(password ? {} : { password: "Enter your password." }),
    };
    if (Object.keys(fields).length)
      return {
        seq,
        ok: false,
        message: "Two things are needed.",
        remedy: "Fill in both.",
        fields,
        values: { email },
      };
    const answer = await signIn("credentials", { email, password, redirect: false });
    if (answer?.error) return { seq, ok: false, message: answer.error, remedy: "", values: { email } };
    window.location.assign(to);
    return { seq, ok: true };
  };
  return (
    <Form action={enter} label="Sign in" className="grid gap-4">
      <TextField name="email" label="Email" type="email" autoComplete="username" required />
      <TextField name="password" label="Password" type="password" autoComplete="current-password" required />
      <SubmitButton>Sign in</SubmitButton>
    </Form>
  );
}
