import { ActBar } from "@/app/_ui/ActBar";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { ReadingStepper } from "@/app/_ui/ReadingStepper";
import { SelectField } from "@/app/_ui/SelectField";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { pass } from "../../actions";
import { factsOf } from "./factsOf";
import { JetsSaid } from "./JetsSaid";
import { PartsSaid } from "./PartsSaid";
import type { StepActsProps } from "./PassAndParts";
import { PassButton } from "./PassButton";

/** Hold points of a step, and the act that passes it. */
export function PassForm({ step, card, slug, locale, away }: Omit<StepActsProps, "mayUse">) {
  const { id: jobId, carburettors } = card;
  const here = `/s/${slug}/jobs/${jobId}`;
  const open = step.holdPoints.filter((hold) => !hold.passed && !hold.overrideReason);
  const ride = step.kind === "ride";
  return (
    <Form
      action={pass}
      shop={slug}
      hidden={{
        jobId: String(jobId),
        stepId: String(step.id),
        version: String(step.version),
        // A ride is passed by its record, which the device does not have.
        ...(ride ? {} : keptAs("pass", jobId, `Passed: ${step.name}`, factsOf(step))),
      }}
      label={`Pass ${step.name}`}
      keep={`step ${step.id}`}
    >
      {step.holdPoints
        .filter((hold) => hold.passed || hold.overrideReason)
        .map((hold) => (
          <p key={hold.id} className="flex justify-between gap-4 border-hair border-b py-2.5">
            <span>{hold.name}</span>
            {hold.overrideReason ? (
              <State shape="triangle">overridden: {hold.overrideReason}</State>
            ) : (
              <State shape="filled" tone="brass">
                {hold.readings[0]?.value ?? ""} {hold.unit} passed
              </State>
            )}
          </p>
        ))}
      {open.map((hold) =>
        hold.kind === "reading" ? (
          <div key={hold.id}>
            <ReadingStepper
              name={`readings.${hold.id}`}
              label={hold.name}
              unit={hold.unit}
              step={hold.increment ?? 0.1}
              low={hold.low ?? undefined}
              high={hold.high ?? undefined}
              scale={hold.scale}
              locale={locale}
            />
            {hold.from && (
              <p className="-mt-2 text-[14px] text-soft">Held to the wear limit of the {hold.from}.</p>
            )}
            {hold.asksCarburettor && (
              <SelectField
                name={`carburettors.${hold.id}`}
                label={`${hold.name}: of which carburettor`}
                initial={String(hold.readings[0]?.carburettor ?? "")}
                options={[
                  { value: "", label: "choose…" },
                  ...carburettors.map((one) => ({ value: String(one.position), label: one.label })),
                ]}
              />
            )}
            {hold.readings.length > 0 && (
              <p className="-mt-2 text-[14px] text-soft">
                Measured before:{" "}
                {hold.readings
                  .map(
                    (one) =>
                      `${one.value} ${hold.unit}${one.carburettor ? `, carburettor ${one.carburettor}` : ""}`,
                  )
                  .join("; ")}
              </p>
            )}
          </div>
        ) : (
          <CheckField
            key={hold.id}
            ruled
            name={hold.kind === "signature" ? "signatures[]" : "checks[]"}
            value={String(hold.id)}
            label={hold.name}
            detail={hold.kind === "signature" ? "Ticking this signs it with your name." : undefined}
          />
        ),
      )}
      <PartsSaid parts={step.parts} />
      <JetsSaid jets={step.jets} locale={locale} />
      <ActBar
        main={
          ride ? (
            <LinkButton tone="main" size="act" href={`${here}/ride`}>
              Record the ride
            </LinkButton>
          ) : (
            <PassButton key={step.id} step={step.id}>
              Pass and go on
            </PassButton>
          )
        }
      >
        {!away && <LinkButton href={`${here}/found?step=${step.id}`}>Found something</LinkButton>}
        {ride && <SubmitButton tone="second">Pass the ride</SubmitButton>}
      </ActBar>
    </Form>
  );
}
