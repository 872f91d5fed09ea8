import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { IMPORT_NOUNS } from "@/lib/domain/imports/types";
import { open } from "@/lib/gate/open";
import { NOUN_WORDS } from "./nouns";
import { RunTable } from "./RunTable";

export default async function ImportPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("import.run", slug);
  return (
    <>
      <PageHead of={shop.name} title="Import" sub="from a CSV file" />
      <Section title="What is in the file">
        <ul className="max-w-[720px]">
          {IMPORT_NOUNS.map((noun) => (
            <li key={noun} className="border-hair border-b">
              <Link
                href={`/s/${slug}/import/${noun}`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline hover:bg-sheet sm:grid-cols-[160px_1fr]"
              >
                <strong>{NOUN_WORDS[noun].name}</strong>
                <span className="text-soft">{NOUN_WORDS[noun].about}</span>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Brought in so far">
        <RunTable shop={shop} />
      </Section>
    </>
  );
}
