import { PageHead } from "@/app/_ui/PageHead";
import { bankFormat } from "@/lib/data/bank/format";
import { marksOf } from "@/lib/domain/money/format";
import { open } from "@/lib/gate/open";
import { BankDesk } from "./BankDesk";

/** A bank's list: file, columns, look, take in. */
export default async function NewBankListPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("payment.write", slug);
  const { currency, locale, country } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Take a bank list in"
        sub="Nothing is booked by this. Lines that are here already are left out."
      />
      <BankDesk
        shop={slug}
        kept={await bankFormat(shop.read)}
        usualDates={country === "US" ? "mdy" : "dmy"}
        usualMark={marksOf(locale).decimal === "," ? "," : "."}
        currency={currency}
        locale={locale}
      />
    </>
  );
}
