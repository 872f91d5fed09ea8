"use client";
import { useEffect, useRef, useState } from "react";
import { CODE_WANTED } from "@/lib/schemas/codeWanted";
import { Button } from "./Button";
import { Form } from "./Form";
import type { FormState } from "./formState";
import { SubmitButton } from "./SubmitButton";
import { signIn } from "./signIn";
import { TextField } from "./TextField";

/** Where to go once signed in, or what to do on the page that stays. */
type SignInFormProps = { readonly to: string } | { readonly onIn: () => void };

interface Typed {
  readonly email: string;
  readonly password: string;
}

/** Address and password; then, where they are right and the person has a second factor, its code. */
export function SignInForm(then: SignInFormProps) {
  // Kept in memory while the code is asked for; the server asks for all three at once.
  const [first, setFirst] = useState<Typed>();

  const enter = async (before: FormState, typed: Typed, code: string): Promise<FormState> => {
    const seq = before.seq + 1;
    const refused = await signIn({ ...typed, code });
    if (refused === CODE_WANTED) {
      setFirst(typed);
      return { seq };
    }
    if (refused) return { seq, ok: false, message: refused, remedy: "", values: { email: typed.email } };
    if ("to" in then) window.location.assign(then.to);
    else then.onIn();
    return { seq, ok: true };
  };

  const withPassword = async (before: FormState, data: FormData): Promise<FormState> => {
    const email = String(data.get("email") ?? "").trim();
    const password = String(data.get("password") ?? "");
    const fields = {
      ...(email ? {} : { email: "Enter your address." }),
      ...(password ? {} : { password: "Enter your password." }),
    };
    if (Object.keys(fields).length === 0) return enter(before, { email, password }, "");
    const message = "Two things are needed.";
    return { seq: before.seq + 1, ok: false, message, remedy: "Fill in both.", fields, values: { email } };
  };

  const withCode = async (before: FormState, data: FormData): Promise<FormState> => {
    const code = String(data.get("code") ?? "").trim();
    if (first && code) return enter(before, first, code);
    const fields = { code: "Enter the code." };
    return { seq: before.seq + 1, ok: false, message: "A code is needed.", remedy: "Enter it.", fields };
  };

  if (first) return <CodeStep action={withCode} back={() => setFirst(undefined)} />;
  return (
    <Form key="password" action={withPassword} label="Sign in" className="grid gap-4">
      <TextField name="email" label="Email" type="email" autoComplete="username" required />
      <TextField name="password" label="Password" type="password" autoComplete="current-password" required />
      <SubmitButton>Sign in</SubmitButton>
    </Form>
  );
}

interface CodeStepProps {
  action: (before: FormState, data: FormData) => Promise<FormState>;
  back: () => void;
}

function CodeStep({ action, back }: CodeStepProps) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.querySelector<HTMLInputElement>("[name=code]")?.focus(), []);
  return (
    <div ref={box}>
      <Form key="code" action={action} label="Second step of signing in" className="grid gap-4">
        <TextField
          name="code"
          label="Code"
          hint="The six figures your app shows now, or one of your recovery codes."
          autoComplete="one-time-code"
          maxLength={60}
          mono
          required
        />
        <div className="flex flex-wrap gap-3">
          <SubmitButton>Sign in</SubmitButton>
          <Button tone="quiet" onClick={back}>
            Start again
          </Button>
        </div>
      </Form>
    </div>
  );
}
