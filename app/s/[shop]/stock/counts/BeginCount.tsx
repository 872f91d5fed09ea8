"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextField } from "@/app/_ui/TextField";
import { beginCount } from "../actions";

/** The bins of a page, each begun with one tap: one form for all of them. */
export function BinList({
  shop,
  bins,
}: {
  shop: string;
  bins: readonly { readonly bin: string; readonly said: string }[];
}) {
  return (
    <Form action={beginCount} shop={shop} label="Count a bin">
      <ul className="grid gap-x-8 lg:grid-cols-2">
        {bins.map(({ bin, said }) => (
          <li key={bin} className="flex flex-wrap items-center gap-x-5 border-hair border-b py-1.5">
            <span className="min-w-16 font-mono font-semibold">{bin}</span>
            <span className="min-w-0 flex-1 text-[14px] text-soft">{said}</span>
            <SubmitButton tone="quiet" name="bin" value={bin}>
              Count<span className="sr-only"> bin {bin}</span>
            </SubmitButton>
          </li>
        ))}
      </ul>
    </Form>
  );
}

/** Standing before a bin: what is written on it, instead of a search down the list. */
export function BeginNamed({ shop, bins }: { shop: string; bins: readonly string[] }) {
  return (
    <Form action={beginCount} shop={shop} label="Count the bin you stand before" className="mb-4 max-w-96">
      <Suggestions id="bins" values={bins} />
      <TextField name="bin" label="The bin you stand before" list="bins" mono maxLength={30} />
      <SubmitButton size="act">Count it</SubmitButton>
    </Form>
  );
}
