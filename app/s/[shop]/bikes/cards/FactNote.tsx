"use client";
import { useState } from "react";
import { TextField } from "@/app/_ui/TextField";

/** A note on a fact: where none is kept its field is drawn when it is opened, for a card has many facts and few notes. */
export function FactNote({ name, fact, kept }: { name: string; fact: string; kept: string | undefined }) {
  const [opened, setOpened] = useState(Boolean(kept));
  return (
    <details
      className="col-span-2"
      open={Boolean(kept)}
      onToggle={(event) => event.currentTarget.open && setOpened(true)}
    >
      <summary className="inline-flex min-h-8 items-center text-[14px] text-brass underline underline-offset-4 pointer-coarse:min-h-12">
        <span className="sr-only">{fact}, </span>Note
      </summary>
      {opened && (
        <TextField
          name={name}
          label={<span className="sr-only">{fact}, note</span>}
          initial={kept}
          maxLength={300}
        />
      )}
    </details>
  );
}
