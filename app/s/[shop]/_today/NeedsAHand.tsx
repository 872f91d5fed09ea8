import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { State } from "@/app/_ui/State";
import type { TodayView } from "@/lib/data/today/today";
import type { OpenShop } from "@/lib/gate/open";
import { linesOf } from "./lines";

/** Everything that waits for someone, each line one tap from the act. */
export function NeedsAHand({ today, shop }: { today: TodayView; shop: OpenShop }) {
  const lines = linesOf(today, shop);
  const { slug } = shop;
  if (lines.length === 0)
    return (
      <Empty
        title="Nothing waits for you."
        text="Arrivals, short parts, stopped jobs, answers and late invoices turn up here."
        action={
          shop.can("quote.write") ? (
            <LinkButton href={`/s/${slug}/quotes/new`}>Start a quote</LinkButton>
          ) : (
            <LinkButton href={`/s/${slug}/jobs`}>To the jobs</LinkButton>
          )
        }
      />
    );
  return (
    <ul>
      {lines.map((line) => (
        <li
          key={line.key}
          className="grid grid-cols-[minmax(0,1fr)_auto] items-baseline gap-x-4 gap-y-0.5 border-hair border-b py-3 sm:grid-cols-[8.25rem_minmax(0,1fr)_auto]"
        >
          <State shape={line.shape} tone={line.tone} className="max-sm:col-span-2">
            {line.word}
          </State>
          <span className="min-w-0">
            <strong>{line.title}</strong> {line.text}
          </span>
          <LinkButton tone="quiet" href={line.href} label={`${line.act}: ${line.title}`}>
            {line.act}
          </LinkButton>
        </li>
      ))}
    </ul>
  );
}
