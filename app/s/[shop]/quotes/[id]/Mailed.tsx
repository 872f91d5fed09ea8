"use client";
import { useShown } from "@/app/_ui/formContext";

/** Beside a link that is shown once: whether a letter brings it too, and what to do where none does. */
export function Mailed({ to, instead }: { to: string; instead: string }) {
  const mailed = useShown("mailed") !== undefined;
  return (
    <p className="mt-1 text-[14px]">
      {mailed ? `A mail to ${to} is in the mail queue.` : instead || "No mail brings it: send it yourself."}
    </p>
  );
}
