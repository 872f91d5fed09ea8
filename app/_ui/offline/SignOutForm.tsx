"use client";
import { type ComponentProps, type MouseEvent, type ReactNode, useRef, useState } from "react";
import { Form } from "../Form";
import { SubmitButton } from "../SubmitButton";

interface SignOutFormProps extends Pick<ComponentProps<typeof Form>, "action" | "label"> {
  children: ReactNode;
}

/** Signs out, and clears what this device keeps; where something waits there unsent, it is counted and asked about first. */
export function SignOutForm({ action, label, children }: SignOutFormProps) {
  const [waiting, setWaiting] = useState(0);
  const cleared = useRef(false);
  const clearFirst = async (event: MouseEvent<HTMLDivElement>) => {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    if (cleared.current || !button || !window.indexedDB) return;
    event.preventDefault();
    const { countWaiting, forgetDevice } = await import("./deviceStore");
    const count = waiting > 0 ? 0 : await countWaiting();
    if (count > 0) return setWaiting(count);
    await forgetDevice();
    cleared.current = true;
    button.form?.requestSubmit(button);
  };
  return (
    <Form action={action} label={label} forgets>
      {waiting > 0 && (
        <p role="alert" className="mb-2 max-w-md">
          <strong>
            {waiting === 1 ? "1 act waits" : `${waiting} acts wait`} on this device and would be lost.
          </strong>{" "}
          Open your card where there is a connection to send what waits, or sign out all the same.
        </p>
      )}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it only listens to the button within, by any way it is pressed */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: a key on a button comes as a click */}
      <div onClick={(event) => void clearFirst(event)}>
        <SubmitButton tone="second">{waiting > 0 ? "Sign out and lose them" : children}</SubmitButton>
      </div>
    </Form>
  );
}
