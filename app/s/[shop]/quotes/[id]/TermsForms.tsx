import { lazy, Suspense } from "react";
import { Dialog } from "@/app/_ui/Dialog";
import { Fetched } from "@/app/_ui/Fetched";
import { dateText } from "@/app/_ui/format";
import { liveModule } from "@/app/_ui/liveModule";
import { Section } from "@/app/_ui/Section";
import type { DraftScreen } from "./shown/screen";
import { useDraft } from "./useDraft";

const DIALOGS = liveModule(() => import("./termsDialogs"));

/** Most quotes have none. */
const HandLines = lazy(async () => ({ default: (await import("./HandLines")).HandLines }));

/** What is agreed on this quote beyond its package: lines by hand, discounts, the deposit, extras to offer. */
export function TermsForms({ slug, fixed }: { slug: string; fixed: DraftScreen["fixed"] }) {
  const terms = useDraft((draft) => draft.terms);
  const { hidden } = useDraft((draft) => draft.forms);
  const { currency, locale } = fixed;
  const { extras } = terms;
  const given = { slug, hidden, currency };
  return (
    <Section id="terms" title="Agreed on this quote" className="print:hidden">
      {terms.byHand.length > 0 && (
        <Suspense>
          <HandLines {...given} lines={terms.byHand} />
        </Suspense>
      )}
      <div className="flex flex-wrap gap-3">
        <Dialog trigger="Title" title="What the quote is called">
          <Fetched of={DIALOGS}>{({ TitleForm }) => <TitleForm {...given} title={terms.title} />}</Fetched>
        </Dialog>
        <Dialog trigger="Add a line" title="A line by hand">
          <Fetched of={DIALOGS}>{({ LineForm }) => <LineForm {...given} />}</Fetched>
        </Dialog>
        <Dialog
          trigger={`Valid until ${dateText(terms.validUntil, locale)}`}
          title="How long this quote is valid"
        >
          <Fetched of={DIALOGS}>
            {({ ValidUntilForm }) => <ValidUntilForm {...given} validUntil={terms.validUntil} />}
          </Fetched>
        </Dialog>
        <Dialog trigger="Discount" title="Discount on the whole">
          <Fetched of={DIALOGS}>
            {({ DiscountForm }) => <DiscountForm {...given} discount={terms.discount} />}
          </Fetched>
        </Dialog>
        <Dialog trigger="Discount a line" title="Discount on one line">
          <Fetched of={DIALOGS}>
            {({ LineDiscountForm }) => <LineDiscountForm {...given} lines={terms.lines} />}
          </Fetched>
        </Dialog>
        <Dialog trigger="Deposit" title="Deposit">
          <Fetched of={DIALOGS}>
            {({ DepositForm }) => <DepositForm {...given} deposit={terms.deposit} />}
          </Fetched>
        </Dialog>
        {extras.length > 0 && (
          <Dialog trigger="Extras to offer" title="Extras to offer">
            <Fetched of={DIALOGS}>{({ ExtrasForm }) => <ExtrasForm {...given} extras={extras} />}</Fetched>
          </Dialog>
        )}
      </div>
      {extras.some((o) => o.offered) && (
        <p className="mt-3 text-[15px]">
          Offered as extras:{" "}
          {extras
            .filter((o) => o.offered)
            .map((o) => o.name)
            .join(", ")}
          .
        </p>
      )}
    </Section>
  );
}
