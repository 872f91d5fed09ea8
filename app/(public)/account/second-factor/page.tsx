import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { factorState } from "@/lib/data/people/secondFactor";
import { shopsAskingFactor } from "@/lib/data/people/shops";
import { ownPath } from "@/lib/gate/origin";
import { person } from "@/lib/gate/personAction";
import { personClock } from "@/lib/gate/personClock";
import { factorSealer } from "@/lib/gate/secondFactor";
import { beginFactor, makeNewCodes, turnOffFactor } from "../actions";
import { GuardFields } from "./GuardFields";
import { NewCodes } from "./NewCodes";
import { SetUp } from "./SetUp";

export const metadata: Metadata = { title: "Second factor" };

/** While recovery codes are shown, nothing else is: not on paper either. */
const BEFORE_CODES = "group-has-[[data-codes]]/factor:hidden";

export default async function SecondFactor({ searchParams }: { searchParams: Promise<{ to?: string }> }) {
  const session = await person("/account/second-factor");
  const to = ownPath((await searchParams).to, "");
  const state = await factorState(session.personId, session.email, factorSealer(), new Date());
  const asking = (await shopsAskingFactor(session.personId)).map((shop) => shop.name).join(", ");
  const on = state.since !== null;
  return (
    <div className="group/factor mx-auto max-w-[640px]">
      <PageHead
        title="Second factor"
        state={
          on ? (
            <State shape="filled" tone="pine" className={BEFORE_CODES}>
              on
            </State>
          ) : (
            <State shape="circle" className={BEFORE_CODES}>
              off
            </State>
          )
        }
      />
      <p className="mb-4">
        With it, signing in asks for your password and then for six figures that an app on your phone shows.
        Whoever learns your password still stays outside.
      </p>
      {!on && asking && (
        <div className={BEFORE_CODES}>
          <Note title={`${asking} asks its owners for one.`}>Set it up to go on.</Note>
        </div>
      )}
      {state.since && (
        <p className={`mb-4 ${BEFORE_CODES}`}>
          On since <Instant at={state.since.toISOString()} {...(await personClock(session.personId))} />.{" "}
          {state.recoveryCodesLeft} of ten recovery codes are left.
        </p>
      )}
      {state.offered && <SetUp {...state.offered} to={to || "/account/second-factor"} />}
      <Section
        title={on ? "Another phone" : state.offered ? "Begin again" : "Set it up"}
        className={BEFORE_CODES}
      >
        <Form
          action={beginFactor}
          hidden={{ to }}
          label={on ? "Set up another phone" : "Set up a second factor"}
        >
          {on && (
            <p className="mb-3">
              The present one goes on counting until the new one has shown its first code.
            </p>
          )}
          <GuardFields withCode={on} />
          <SubmitButton tone={on || state.offered ? "second" : "main"}>
            {on ? "Set up another phone" : state.offered ? "Begin again" : "Set it up"}
          </SubmitButton>
        </Form>
      </Section>
      {on && (
        <>
          <Section title="Recovery codes">
            <Form action={makeNewCodes} label="Make new recovery codes">
              <NewCodes to="/account">
                <p className="mb-3">Ten new ones; those before count no more.</p>
                <GuardFields withCode />
                <SubmitButton tone="second">Make ten new codes</SubmitButton>
              </NewCodes>
            </Form>
          </Section>
          <Section title="Turn it off" className={BEFORE_CODES}>
            <Form action={turnOffFactor} label="Turn the second factor off">
              {asking && (
                <Note title={`${asking} asks its owners for one:`}>without it you cannot enter there.</Note>
              )}
              <GuardFields withCode />
              <SubmitButton tone="danger">Turn it off</SubmitButton>
            </Form>
          </Section>
        </>
      )}
      <p className={`mt-6 ${BEFORE_CODES}`}>
        <Link href="/account">Back to your page</Link>
      </p>
    </div>
  );
}
