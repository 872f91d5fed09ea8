import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { countWaiting, decidedLines, LINE_STATES, waitingLines } from "@/lib/data/bank/lines";
import { open } from "@/lib/gate/open";
import { idIn } from "@/lib/schemas/ids";
import { DecidedLines } from "./DecidedLines";
import { WaitingLines } from "./WaitingLines";

const TABS = { waiting: "Waiting", booked: "Booked", aside: "Set aside", out: "Money out" } as const;

/** What the bank says came in, and what of it is still to be matched. */
export default async function BankPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ show?: string | string[]; after?: string | string[] }>;
}) {
  const [{ shop: slug }, { show, after }] = await Promise.all([params, searchParams]);
  const shop = await open("payment.write", slug);
  const { currency, locale } = shop.settings;
  const which = LINE_STATES.find((state) => state === show) ?? "waiting";
  const base = `/s/${slug}/invoices/bank`;
  const waiting = await countWaiting(shop);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Bank"
        sub={
          waiting > 0 ? `${waiting} ${waiting === 1 ? "line waits" : "lines wait"} to be matched` : undefined
        }
        actions={
          <LinkButton href={`${base}/new`} tone="main">
            Take a bank list in
          </LinkButton>
        }
      />
      <nav aria-label="Lines" className="mb-5 flex flex-wrap gap-x-5">
        {Object.entries(TABS).map(([key, name]) => (
          <Link
            key={key}
            href={key === "waiting" ? base : `${base}?show=${key}`}
            aria-current={key === which ? "page" : undefined}
            className="inline-flex min-h-11 items-center underline decoration-hair underline-offset-4 hover:decoration-ink aria-[current]:font-bold aria-[current]:no-underline pointer-coarse:min-h-12"
          >
            {name}
          </Link>
        ))}
      </nav>
      {which === "waiting" ? (
        <Waiting view={await waitingLines(shop)} slug={slug} currency={currency} locale={locale} />
      ) : (
        <Decided
          {...(await decidedLines(
            shop,
            which,
            idIn(typeof after === "string" ? after : undefined) ?? undefined,
          ))}
          path={`${base}?show=${which}`}
          which={which}
          slug={slug}
          currency={currency}
          locale={locale}
        />
      )}
    </>
  );
}

interface Shown {
  slug: string;
  currency: string;
  locale: string;
}

function Waiting({ view, ...rest }: Shown & { view: Awaited<ReturnType<typeof waitingLines>> }) {
  if (view.lines.length === 0)
    return (
      <Empty
        title="No money waits to be matched."
        text="Take your bank's list of movements in as a CSV file: each line is held against what is open, and you say what it pays."
        action={<LinkButton href={`/s/${rest.slug}/invoices/bank/new`}>Take a bank list in</LinkButton>}
      />
    );
  return (
    <>
      <WaitingLines {...rest} lines={view.lines} />
      {view.more && <p>More wait: they come up as these are decided.</p>}
    </>
  );
}

function Decided({
  lines,
  next,
  path,
  ...rest
}: Shown & Awaited<ReturnType<typeof decidedLines>> & { path: string; which: (typeof LINE_STATES)[number] }) {
  return (
    <>
      {lines.length === 0 ? <p className="text-soft">None yet.</p> : <DecidedLines {...rest} lines={lines} />}
      {next !== null && (
        <p className="mt-4">
          <LinkButton href={`${path}&after=${next}`}>Older ones</LinkButton>
        </p>
      )}
    </>
  );
}
