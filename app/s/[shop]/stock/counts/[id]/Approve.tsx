"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { approveBinCount, countBinAgain, dropBinCount } from "../../actions";

export interface CountedLine {
  readonly partId: number;
  readonly code: string;
  readonly name: string;
  readonly counted: string | null;
  readonly ledger: string;
  readonly variance: string | null;
  readonly worth: string | null;
  readonly missing: string | null;
  readonly leftOut: boolean;
}

export interface ApproveProps {
  shop: string;
  sheetId: number;
  version: number;
  open: boolean;
  mayApprove: boolean;
  lines: readonly CountedLine[];
}

/** The variances of a bin, each to be taken into the ledger or left out. */
export function Approve({ shop, sheetId, version, open, mayApprove, lines }: ApproveProps) {
  const hidden = { sheetId: String(sheetId), version: String(version) };
  const differ = lines.filter((line) => line.variance !== null).length;
  const list = (
    <ul className="mb-4">
      {lines.map((line) => (
        <li key={line.partId} className="border-hair border-b py-2">
          <div className="flex flex-wrap items-baseline gap-x-5">
            <span className="font-mono font-semibold">{line.code}</span>
            <span className="min-w-40 flex-1">{line.name}</span>
            {line.counted === null ? (
              <State shape="dash">not counted</State>
            ) : line.variance === null ? (
              <State shape="filled" tone="pine">
                {line.counted}, agrees
              </State>
            ) : (
              <State shape="triangle" tone="oxide">
                {line.variance}: counted {line.counted}, ledger {line.ledger}
              </State>
            )}
            {line.worth && <span className="font-mono">{line.worth}</span>}
          </div>
          {line.missing && (
            <p className="text-[14px] text-soft">
              {line.missing} of what is reserved would be missing: the newest jobs become short of it.
            </p>
          )}
          {line.leftOut && <p className="text-[14px] text-soft">Left out.</p>}
          {open && mayApprove && line.variance !== null && (
            <CheckField name="leaveOut[]" value={String(line.partId)} label={`Leave ${line.code} out`} />
          )}
        </li>
      ))}
    </ul>
  );
  return (
    <div className="max-w-[52rem]">
      {open && mayApprove ? (
        <Form action={approveBinCount} shop={shop} hidden={hidden} label="Approve the count">
          {list}
          <TextField name="why" label="What may have happened" hint="If you know; the ledger keeps it." />
          <SubmitButton size="act">
            {differ === 0 ? "Approve: the bin agrees" : `Approve, ${differ} into the ledger`}
          </SubmitButton>
        </Form>
      ) : (
        list
      )}
      {open && !mayApprove && (
        <Note title="Counted.">The owner or the desk looks at it and approves it.</Note>
      )}
      {open && (
        <div className="mt-4 flex flex-wrap gap-5">
          <Form action={countBinAgain} shop={shop} hidden={hidden} label="Count again">
            <SubmitButton tone="quiet">Count again</SubmitButton>
          </Form>
          <Form action={dropBinCount} shop={shop} hidden={hidden} label="Give the count up">
            <SubmitButton tone="quiet">Give the count up</SubmitButton>
          </Form>
        </div>
      )}
    </div>
  );
}
