import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { problemsOf } from "@/lib/data/books/invariants";
import { Refusal } from "@/lib/domain/refusal";
import { open } from "@/lib/gate/open";
import { photoStore } from "@/lib/outside/photoStore";

export default async function Check({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("audit.read", slug);
  const problems = await problemsOf(shop, photoStore(shop)).catch((cause: unknown) => {
    if (cause instanceof Refusal) return [`Not all could be looked at. ${cause.message} ${cause.remedy}`];
    throw cause;
  });
  return (
    <>
      <PageHead
        of={shop.name}
        title="Do the books add up"
        sub="Worked out just now from the ledgers"
        state={
          problems.length === 0 ? (
            <State shape="filled" tone="pine">
              all holds
            </State>
          ) : (
            <State shape="triangle" tone="oxide">
              {problems.length} to look at
            </State>
          )
        }
      />
      <Section title="What is checked">
        <ul className="max-w-[720px] list-disc pl-5">
          <li>Stock on hand is the sum of its moves and never below zero.</li>
          <li>What is reserved is what jobs hold, within what there is.</li>
          <li>
            Invoice and credit note numbers have no gap; each document is what it was when issued, adds up,
            and is dated no earlier than the one before.
          </li>
          <li>Payments stay within what is due.</li>
          <li>Every photo's picture is there, and is the one that was kept.</li>
          <li>Nobody has two running time entries, and none ends before it starts.</li>
        </ul>
      </Section>
      {problems.length > 0 && (
        <Section title="What does not hold">
          <ul className="max-w-[720px]">
            {problems.map((problem) => (
              <li key={problem} className="border-hair border-b py-2">
                {problem}
              </li>
            ))}
          </ul>
          <p className="mt-3">
            Keep the data folder as it is, make a backup, and tell whoever runs the server.
          </p>
        </Section>
      )}
    </>
  );
}
