import Form from "next/form";
import { Button } from "@/app/_ui/Button";
import { Empty } from "@/app/_ui/Empty";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { type HitNoun, searchAll } from "@/lib/data/search/search";
import { open } from "@/lib/gate/open";

const NAMES: Readonly<Record<HitNoun, string>> = {
  customers: "Customers",
  bikes: "Bikes",
  quotes: "Quotes",
  jobs: "Jobs",
  parts: "Parts",
  invoices: "Invoices",
};

export default async function SearchPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ q?: string | string[] }>;
}) {
  const { shop: slug } = await params;
  const { q } = await searchParams;
  const text = (typeof q === "string" ? q : "").slice(0, 200);
  const shop = await open("today.read", slug);
  const groups = await searchAll(shop, text, { invoices: shop.can("invoice.read") });
  return (
    <>
      <PageHead of={shop.name} title="Find anything" />
      <Form action={`/s/${slug}/search`} role="search" className="mb-6 flex max-w-[640px] items-end gap-3">
        <div className="min-w-0 flex-1">
          <label htmlFor="q" className="mb-1 block font-semibold text-[15px]">
            Name, plate, number, part or model
          </label>
          <input
            key={text}
            id="q"
            data-find
            type="search"
            name="q"
            defaultValue={text}
            maxLength={200}
            autoComplete="off"
            className={CONTROL}
          />
        </div>
        <Button type="submit" tone="main">
          Find
        </Button>
      </Form>
      {groups.map(({ noun, hits, more }) => (
        <Section
          key={noun}
          title={NAMES[noun]}
          aside={
            more && (
              <Link
                href={`/s/${slug}/${noun === "parts" ? "stock" : noun}?q=${encodeURIComponent(text)}`}
                className="text-brass underline underline-offset-4"
              >
                More of these
              </Link>
            )
          }
        >
          <ul className="max-w-[900px]">
            {hits.map((hit) => (
              <li key={hit.id} className="border-hair border-b">
                <Link
                  href={hit.href}
                  className="flex min-h-12 flex-wrap items-baseline justify-between gap-x-6 py-2.5 no-underline hover:bg-sheet"
                >
                  <strong>{hit.label}</strong>
                  <span className="text-soft">{hit.sub}</span>
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      ))}
      {groups.length === 0 && text.trim() !== "" && (
        <Empty
          title={`Nothing here holds "${text.trim()}".`}
          text="Try part of a name, a plate without spaces, or a document's number."
        />
      )}
    </>
  );
}
