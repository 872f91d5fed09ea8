"use client";
import { usePathname, useRouter } from "next/navigation";
import { type FormEvent, useTransition } from "react";
import { CheckField } from "@/app/_ui/CheckField";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";

interface Props {
  extras: readonly {
    readonly key: string;
    readonly name: string;
    readonly plain: string;
    readonly grossMinor: number;
    readonly taken: boolean;
    readonly because: string;
  }[];
  /** The way they are added to; undefined where there is no choice. */
  alternative: string | undefined;
  printed: { readonly currency: string; readonly locale: string; readonly grossMinor: number };
  /** What it says by itself, in the customer's language. */
  words: { readonly title: string; readonly form: string; readonly workOut: string; readonly total: string };
}

/** What the customer may add: ticks in the page's address, so that the server works out the total. A button does it without scripts. */
export function Extras({ extras, alternative, printed, words }: Props) {
  const router = useRouter();
  const path = usePathname();
  const [pending, start] = useTransition();
  if (extras.length === 0) return null;
  const money = (minor: number) => moneyText(minor, printed.currency, printed.locale);
  const follow = (event: FormEvent<HTMLFormElement>) => {
    const ticked = new FormData(event.currentTarget).getAll("extra").map(String);
    const query = new URLSearchParams([
      ...(alternative === undefined ? [] : [["alternative", alternative]]),
      ...ticked.map((key) => ["extra", key]),
    ]);
    start(() => router.replace(query.size > 0 ? `${path}?${query}` : path, { scroll: false }));
  };
  return (
    <Section title={words.title}>
      <form method="get" onChange={follow} aria-label={words.form} aria-busy={pending || undefined}>
        {alternative !== undefined && <input type="hidden" name="alternative" value={alternative} readOnly />}
        {extras.map((e) => (
          <CheckField
            key={`${alternative} ${e.key} ${e.taken}`}
            name="extra"
            value={e.key}
            label={e.name}
            detail={e.because || e.plain}
            figure={`${e.grossMinor < 0 ? "−" : "+"}${money(Math.abs(e.grossMinor))}`}
            initial={e.taken}
            disabled={e.because !== ""}
            ruled
          />
        ))}
        <noscript>
          <button type="submit" className="mt-3 min-h-12 border border-ink px-4 font-semibold">
            {words.workOut}
          </button>
        </noscript>
        <p role="status" className="mt-2 text-[15px]">
          {words.total}
        </p>
      </form>
    </Section>
  );
}
