import { Caution } from "@/app/_ui/Caution";
import { Dialog } from "@/app/_ui/Dialog";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { spentByWord } from "@/lib/data/invoices/byWord";
import { isFree } from "@/lib/data/jobs/closeFree";
import type { JobView } from "@/lib/data/jobs/get";
import type { OpenShop } from "@/lib/gate/open";
import { AGREEMENT_WORDS, YES_HOWS, YES_WORDS } from "@/lib/schemas/agreementWords";
import { AddWork } from "./AddWork";
import { closeWithout, writeYes } from "./agreementActions";

const OPEN = ["waiting", "booked", "inWork", "ride", "ready"];

/** What a job without a quote stands on: who said yes up to what, what it comes back from, what is added to it. */
export async function Agreement({ shop, job }: { shop: OpenShop; job: JobView }) {
  const { agreement } = job;
  if (!agreement) return null;
  const { currency, locale, zone } = shop.settings;
  const money = (minor: number) => moneyText(minor, currency, locale);
  const spent = agreement.kind === "word" ? await spentByWord(shop, job.id) : null;
  const { comebackOf, chargedBp, why } = agreement;
  const charged =
    chargedBp === 0 ? "nothing" : chargedBp === 10_000 ? "in full" : `${chargedBp / 100} % of it`;
  const mayAdd = (shop.can("job.work") || shop.can("job.write")) && OPEN.includes(job.state);
  return (
    <Section title={`Agreement: ${AGREEMENT_WORDS[agreement.kind]}`}>
      {spent && spent.state !== "inside" && spent.spentMinor !== null && (
        <Caution title={spent.state === "over" ? "Past what was agreed." : "Near what was agreed."}>
          {money(spent.spentMinor)} of {money(spent.upToMinor)}.{" "}
          {spent.state === "over" ? "Going on needs another yes." : "Ask before it goes past."}
        </Caution>
      )}
      <Facts
        rows={[
          ...(spent?.spentMinor == null
            ? []
            : [{ name: "So far, as worked", value: money(spent.spentMinor), mono: true }]),
          ...job.yeses.map((yes) => ({
            key: `yes ${yes.id}`,
            name: (
              <>
                {yes.saidBy}, {YES_WORDS[yes.how]},{" "}
                <Instant at={yes.at.toISOString()} locale={locale} zone={zone} />
                {yes.note && `: ${yes.note}`}
              </>
            ),
            value: `up to ${money(yes.upToMinor)}`,
          })),
          ...(comebackOf
            ? [
                {
                  name: "Comes back from",
                  value: (
                    <Link
                      className="text-brass underline underline-offset-4"
                      href={`/s/${shop.slug}/jobs/${comebackOf.id}`}
                    >
                      job {comebackOf.number}
                    </Link>
                  ),
                },
                { name: "Charged", value: charged },
                { name: "Why", value: why },
              ]
            : []),
          ...(agreement.kind === "ownBike" ? [{ name: "Invoiced", value: "nobody" }] : []),
        ]}
      />
      {spent?.trouble && <p className="mt-1 text-[14px] text-soft">{spent.trouble}</p>}
      <div className="mt-3 flex flex-wrap gap-3">
        {mayAdd && <AddWork shop={shop} jobId={job.id} />}
        {agreement.kind === "word" && shop.can("job.write") && job.state !== "closed" && (
          <AnotherYes shop={shop} job={job} />
        )}
        {isFree(agreement) && job.state === "ready" && shop.can("job.write") && (
          <Form
            action={closeWithout}
            shop={shop.slug}
            hidden={{ jobId: String(job.id), version: String(job.version) }}
            label="Close without an invoice"
          >
            <SubmitButton>Close without an invoice</SubmitButton>
          </Form>
        )}
      </div>
    </Section>
  );
}

function AnotherYes({ shop, job }: { shop: OpenShop; job: JobView }) {
  return (
    <Dialog trigger="Another yes" title="Another yes">
      <Form
        action={writeYes}
        shop={shop.slug}
        hidden={{ jobId: String(job.id), version: String(job.version) }}
        label="Another yes"
      >
        <TextField
          name="saidBy"
          label="Who said yes"
          initial={job.yeses[0]?.saidBy ?? job.customer.name}
          required
          maxLength={120}
        />
        <SelectField
          name="how"
          label="How"
          options={YES_HOWS.map((how) => ({ value: how, label: YES_WORDS[how] }))}
        />
        <TextField
          name="upTo"
          label={`Up to, ${shop.settings.currency}`}
          hint="For the whole job, with tax"
          inputMode="decimal"
          required
          mono
        />
        <TextField name="note" label="What it is for" maxLength={200} />
        <SubmitButton>Write it down</SubmitButton>
      </Form>
    </Dialog>
  );
}
