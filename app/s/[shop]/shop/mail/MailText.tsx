"use client";
import { useState } from "react";

/** A mail's text, drawn when it is opened: a list of mails would be mostly that. */
export function MailText({ text }: { text: string }) {
  const [opened, setOpened] = useState(false);
  return (
    <details className="mt-1" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary className="min-h-11 cursor-pointer py-2 text-brass">Read the mail</summary>
      {opened && <pre className="whitespace-pre-wrap break-words font-sans">{text}</pre>}
    </details>
  );
}
