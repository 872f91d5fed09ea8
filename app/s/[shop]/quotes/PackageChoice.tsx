"use client";
import { useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { TextField } from "@/app/_ui/TextField";
import { searchKey } from "@/lib/domain/searchKey";

export interface PackageOffer {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly summary: string;
}

const MOST_SHOWN = 12;

/** One of the shop's packages, by search where there are more than a few. */
export function PackageChoice({ packages }: { packages: readonly PackageOffer[] }) {
  const [typed, setTyped] = useState("");
  const words = searchKey(typed).split(" ").filter(Boolean);
  const found = packages.filter((p) =>
    words.every((word) => searchKey(p.code, p.name, p.summary).includes(word)),
  );
  const [only] = found;
  return (
    <div onInput={(event) => event.target instanceof HTMLInputElement && heard(event.target, setTyped)}>
      {packages.length > 4 && (
        <TextField name="search" type="search" label="Find a package" hint="Code, name or what it does" />
      )}
      <ChoiceField
        key={found.length === 1 ? only?.id : "many"}
        name="packageId"
        label="Package"
        initial={found.length === 1 ? String(only?.id) : undefined}
        options={found.slice(0, MOST_SHOWN).map((p) => ({
          value: String(p.id),
          label: p.name,
          detail: [p.code, p.summary].filter(Boolean).join(" · "),
        }))}
      />
      {found.length > MOST_SHOWN && (
        <p className="mb-3 text-[14px] text-soft">
          {found.length - MOST_SHOWN} more: type a word to find them.
        </p>
      )}
      {found.length === 0 && <p className="mb-3 text-[15px]">No package has these words.</p>}
    </div>
  );
}

function heard(input: HTMLInputElement, say: (typed: string) => void) {
  if (input.name === "search") say(input.value);
}
