import { checkTexts, payTexts } from "@/app/_documents/handoverTexts";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { SignatureField } from "@/app/_ui/SignatureField";
import { SignatureLine } from "@/app/_ui/SignatureLine";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { handedOver } from "@/lib/data/papers/handedOver";
import type { OpenShop } from "@/lib/gate/open";
import { paperWords } from "@/lib/words/papers";
import { sign } from "./actions";

interface Props {
  shop: OpenShop;
  jobId: number;
  finished: boolean;
  end: NonNullable<Awaited<ReturnType<typeof handedOver>>>;
}

const words = paperWords("en");

/** What closes a handover: what is looked at next, what is to pay, and the signature of whoever takes the bike. */
export function HandedOver({ shop, jobId, finished, end }: Props) {
  const { locale, zone } = shop.settings;
  const { checks, toPay, signed } = end;
  const money = (minor: number) => moneyText(minor, toPay.currency, locale);
  const pay = payTexts(toPay, locale, money, words);
  const rows = (said: readonly { what: string; said: string }[]) =>
    said.map(({ what, said: value }, at) => ({ key: `${at} ${what}`, name: what, value }));
  return (
    <>
      {checks.length > 0 && (
        <Section title="Next">
          <Facts rows={rows(checkTexts(checks, shop.settings, words))} />
        </Section>
      )}
      {pay.length > 0 && (
        <Section title="To pay">
          <Facts rows={rows(pay)} />
        </Section>
      )}
      <Section title="Taken back">
        {signed ? (
          <SignatureLine {...signed} locale={locale} zone={zone} />
        ) : (
          <p className="hidden pt-8 print:block">Received by ______________________________</p>
        )}
        {finished && shop.can("intake.write") && (
          <details open={!signed} className="mt-3 print:hidden">
            <summary className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12">
              {signed ? "Sign again" : "Sign for the bike"}
            </summary>
            <Form
              key={signed?.signedAt.getTime()}
              action={sign}
              shop={shop.slug}
              hidden={{ jobId: String(jobId) }}
              label="Sign for the bike"
              className="mt-3"
            >
              <SignatureField label="I took the bike back, and this sheet with it" />
              <SubmitButton>Keep the signature</SubmitButton>
            </Form>
          </details>
        )}
      </Section>
    </>
  );
}
