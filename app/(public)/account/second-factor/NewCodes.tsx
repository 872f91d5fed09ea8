"use client";
import type { ReactNode } from "react";
import { Button } from "@/app/_ui/Button";
import { useShown } from "@/app/_ui/formContext";
import { LinkButton } from "@/app/_ui/LinkButton";

/** Inside a form: what stands there until its action hands back recovery codes, and then these, once, to be printed. */
export function NewCodes({ to, children }: { to: string; children: ReactNode }) {
  const codes = useShown("codes")?.split("\n");
  if (!codes) return children;
  return (
    <div role="status">
      <p className="mb-3">
        <strong>Your ten recovery codes.</strong> Each stands in for your phone once. They are shown only now:
        print them, or write them down, and keep them where your phone is not.
      </p>
      <ol className="keep my-3 grid list-none gap-x-8 gap-y-1.5 border-brass-fill border-l-4 bg-brass-wash px-4 py-3 sm:grid-cols-2">
        {codes.map((code) => (
          <li key={code} className="font-mono">
            {code}
          </li>
        ))}
      </ol>
      <div className="flex flex-wrap gap-3 print:hidden">
        <Button tone="second" onClick={() => window.print()}>
          Print them
        </Button>
        <LinkButton href={to} tone="main">
          I have kept them
        </LinkButton>
      </div>
    </div>
  );
}
