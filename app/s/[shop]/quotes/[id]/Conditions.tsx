"use client";
import { useState } from "react";
import { Fetched } from "@/app/_ui/Fetched";
import { liveModule } from "@/app/_ui/liveModule";
import type { ConditionsProps } from "./ConditionsForm";

const FORM = liveModule(() => import("./ConditionsForm"));

/** The air that the settings are for, behind one line; without scripts on the page of what the quote rests on. */
export function Conditions(props: ConditionsProps) {
  const [opened, setOpened] = useState(false);
  return (
    <details
      className="mb-6 text-[15px] print:hidden"
      onToggle={(event) => event.currentTarget.open && setOpened(true)}
    >
      <summary className="inline-flex min-h-6 items-center font-semibold text-brass underline underline-offset-[5px] pointer-coarse:min-h-12">
        Where and when it is ridden
      </summary>
      {opened && <Fetched of={FORM}>{({ ConditionsForm }) => <ConditionsForm {...props} />}</Fetched>}
      <noscript>
        <a href={`/s/${props.slug}/quotes/${props.hidden.id}/reasons`}>Change it on a page of its own</a>
      </noscript>
    </details>
  );
}
