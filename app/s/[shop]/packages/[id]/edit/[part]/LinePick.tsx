"use client";
import { useId, useState } from "react";
import { Button } from "@/app/_ui/Button";
import { CONTROL } from "@/app/_ui/FieldFrame";

/** The words of the shop's library that lines of an item may be. */
export interface LibraryLines {
  readonly cautions: readonly string[];
  readonly checks: readonly string[];
}

interface Props {
  /** Name of the field with one entry a line. */
  into: "cautions" | "closingChecks";
  label: string;
  lines: readonly string[];
}

/** Adds a line of the library to a field: narrowed by typing, chosen from a list. Nothing where the library has none. */
export function LinePick({ into, label, lines }: Props) {
  const id = useId();
  const [words, setWords] = useState("");
  if (lines.length === 0) return null;
  const found = lines.filter((line) =>
    words
      .toLowerCase()
      .split(/\s+/)
      .every((word) => line.toLowerCase().includes(word)),
  );
  const add = (button: HTMLButtonElement) => {
    const form = button.closest("form");
    const chosen = form?.querySelector<HTMLSelectElement>(`[id="${id}"]`)?.value;
    const area = form?.elements.namedItem(into);
    if (!chosen || !(area instanceof HTMLTextAreaElement)) return;
    const there = area.value.split(/\r?\n/).map((line) => line.trim());
    if (!there.includes(chosen)) area.value = [...there.filter(Boolean), chosen].join("\n");
    area.dispatchEvent(new Event("input", { bubbles: true }));
    area.focus();
  };
  return (
    <div className="mb-4 grid items-end gap-x-3 gap-y-2 sm:grid-cols-[10rem_minmax(0,1fr)_auto]">
      <div className="min-w-0">
        <label htmlFor={`${id}-words`} className="mb-1 block text-[14px] text-soft">
          {`${label}: find`}
        </label>
        <input
          id={`${id}-words`}
          type="search"
          value={words}
          autoComplete="off"
          onChange={(event) => setWords(event.currentTarget.value)}
          onKeyDown={(event) => event.key === "Enter" && event.preventDefault()}
          className={CONTROL}
        />
      </div>
      <div className="min-w-0">
        <label htmlFor={id} className="mb-1 block text-[14px] text-soft">
          {label}
        </label>
        <select id={id} className={CONTROL}>
          {found.length === 0 && <option value="">Nothing of that</option>}
          {found.map((line) => (
            <option key={line} value={line}>
              {line}
            </option>
          ))}
        </select>
      </div>
      <Button onClick={(event) => add(event.currentTarget)}>
        Add<span className="sr-only">{` ${label.toLowerCase()}`}</span>
      </Button>
    </div>
  );
}
