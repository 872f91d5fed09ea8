import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { readBook } from "@/lib/data/ledger/chart";
import { ACCOUNT_USES, nameOfUse } from "@/lib/domain/ledger/accounts";
import { open } from "@/lib/gate/open";
import { AccountForm } from "../AccountForm";
import { dropAccount } from "../actions";

/** One account: its number, name and kind, and what goes to it. */
export default async function Account({ params }: { params: Promise<{ shop: string; code: string }> }) {
  const { shop: slug, code: asked } = await params;
  const shop = await open("books.write", slug);
  const { chart, version } = await readBook(shop);
  // A code with letters of other alphabets stands encoded in the address.
  const account = chart.accounts.find((one) => one.code === asked || encodeURIComponent(one.code) === asked);
  if (!account) notFound();
  const { code } = account;
  const uses = ACCOUNT_USES.filter((use) => chart.uses[use] === code);
  return (
    <>
      <PageHead of={shop.name} title={`Account ${code}`} sub={account.name} />
      <p className="mb-4 max-w-prose">
        {uses.length > 0 ? `Takes: ${uses.map(nameOfUse).join("; ")}.` : "Nothing goes to it."} What is
        changed here holds for the whole journal, also for days that are past.
      </p>
      <AccountForm
        slug={slug}
        version={version}
        account={account}
        grouped={shop.settings.taxRegime === "no"}
      />
      {uses.length === 0 && (
        <Section title="Remove it" className="mt-7">
          <Form action={dropAccount} shop={slug} hidden={{ version: String(version), code }} label="Remove">
            <SubmitButton tone="danger">Remove account {code}</SubmitButton>
          </Form>
        </Section>
      )}
    </>
  );
}
