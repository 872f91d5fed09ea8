import { Form } from "@/app/_ui/Form";
import { instantText } from "@/app/_ui/format";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { EffectView, effectsOn } from "@/lib/data/jobs/effects";
import { effectDef } from "@/lib/domain/procedures/effects";
import type { OpenShop } from "@/lib/gate/open";
import { withdraw } from "./actions";
import { effectText, underText } from "./effectText";

type OfJob = Awaited<ReturnType<typeof effectsOn>>[number];

/** What a job's work did on its bike: before, after and the change, and the figures behind it. */
export function JobEffects({ shop, of }: { shop: OpenShop; of: OfJob }) {
  const { locale } = shop.settings;
  return (
    <>
      <table className="ledger">
        <caption className="sr-only">Before and after job {of.number}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            {["Before", "After", "Change"].map((name) => (
              <th key={name} scope="col" data-align="end">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {of.compared.map(({ kind, under, before, after, difference }) => (
            <tr key={`${kind} ${JSON.stringify(under)}`}>
              <td data-first="">
                {effectDef(kind).name}{" "}
                <span className="block text-[14px] text-soft">{underText(under, locale)}</span>
              </td>
              {[before, after].map((side, at) => (
                <td
                  key={at === 0 ? "Before" : "After"}
                  data-name={at === 0 ? "Before" : "After"}
                  data-align="end"
                >
                  {side ? (
                    <>
                      <span className="font-mono">{effectText(kind, side.value, locale)}</span>
                      {side.count > 1 && <span className="text-soft"> of {side.count}</span>}
                    </>
                  ) : (
                    <span className="text-soft">not read</span>
                  )}
                </td>
              ))}
              <td data-name="Change" data-align="end" className="font-mono">
                {difference === null ? "" : effectText(kind, difference, locale, true)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <details className="print:hidden">
        <summary className="in-line text-brass">Each figure</summary>
        <ul>
          {of.figures.map((one) => (
            <Figure key={one.id} one={one} shop={shop} />
          ))}
        </ul>
      </details>
    </>
  );
}

function Figure({ one, shop }: { one: EffectView; shop: OpenShop }) {
  const { locale, zone } = shop.settings;
  const what = `${effectDef(one.kind).name}, ${one.side}: ${effectText(one.kind, one.value, locale)}`;
  const about = [
    underText(one.under, locale),
    one.instrument,
    instantText(one.at.toISOString(), locale, zone, "date"),
    one.note,
  ];
  return (
    <li className="border-hair border-b py-2">
      <span className={one.withdrawnAt ? "line-through" : ""}>{what}</span>
      <span className="block text-[14px] text-soft">{about.filter(Boolean).join(", ")}</span>
      {one.withdrawnAt && <span className="block text-[14px]">Withdrawn: {one.withdrawnWhy}</span>}
      {!one.withdrawnAt && shop.can("intake.write") && (
        <details>
          <summary className="inline-flex min-h-6 items-center text-[14px] underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
            It is wrong<span className="sr-only">: {what}</span>
          </summary>
          <Form
            action={withdraw}
            shop={shop.slug}
            hidden={{ effectId: String(one.id), version: String(one.version) }}
            label={`Withdraw ${what}`}
            className="max-w-[420px]"
          >
            <TextField name="why" label="Why" maxLength={300} />
            <SubmitButton tone="second">Withdraw it</SubmitButton>
          </Form>
        </details>
      )}
    </li>
  );
}
