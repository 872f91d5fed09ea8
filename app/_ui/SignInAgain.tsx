"use client";
import { useRouter } from "next/navigation";
import { Dialog } from "./Dialog";
import { SignInForm } from "./SignInForm";
import { useToasts } from "./toastContext";

/** Signs in again over a form whose session has ended: what was typed stays where it is. */
export function SignInAgain() {
  const router = useRouter();
  const toasts = useToasts();
  const inside = () => {
    toasts.say({ text: "You are signed in: send it once more." });
    // The page learns who is here now.
    router.refresh();
  };
  return (
    <Dialog trigger="Sign in here" title="Sign in again">
      <SignInForm onIn={inside} />
    </Dialog>
  );
}
