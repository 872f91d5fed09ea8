import type { ReactNode } from "react";
import { TextArea } from "@/app/_ui/TextArea";
import type { AccessEntry, OperationEntry } from "@/lib/domain/library/entry";
import { RecheckFields } from "../RecheckFields";
import { TorqueRows } from "./TorqueRows";

interface Props {
  entry: AccessEntry | OperationEntry | undefined;
  /** What of the cautions' place is this kind's own, before “one a line”. */
  breaks?: string;
  /** Fields of one kind alone, after the cautions. */
  children?: ReactNode;
}

/** What the hand has to know at an access or a piece of work: cautions, tools, threadlocker, torques, what is looked at again. */
export function EntryHand({ entry, breaks, children }: Props) {
  return (
    <>
      <TextArea
        name="cautions"
        label="Cautions"
        hint={`${breaks ? `${breaks}, one` : "One"} a line: shown just before the step`}
        initial={entry?.cautions.join("\n")}
      />
      {children}
      <div className="grid gap-x-6 sm:grid-cols-2">
        <TextArea name="tools" label="Tools" hint="One a line" initial={entry?.tools.join("\n")} />
        <TextArea
          name="threadlocker"
          label="Threadlocker on"
          hint="One a line"
          initial={entry?.threadlocker.join("\n")}
        />
      </div>
      <TorqueRows rows={entry?.torques ?? []} />
      <RecheckFields recheck={entry?.recheck} />
    </>
  );
}
