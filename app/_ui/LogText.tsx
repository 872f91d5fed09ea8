"use client";
import { useId, useRef, useState } from "react";
import { decodeFile } from "@/lib/domain/imports/decode";
import { Refusal } from "@/lib/domain/refusal";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface LogTextProps {
  initial: string;
  /** Called with the text whenever it changes. */
  onText: (text: string) => void;
}

/** A log as text: pasted, or read from a chosen file into the same place. */
export function LogText({ initial, onText }: LogTextProps) {
  const id = useId();
  const area = useRef<HTMLTextAreaElement>(null);
  const [unread, setUnread] = useState("");
  const { value, error: said, seq } = useFormField("csv", initial);
  const error = unread || said;
  const hint = "The first line names the columns. At most 5 MB and 50,000 rows.";
  const take = async (file: File | undefined) => {
    if (!file || !area.current) return;
    try {
      area.current.value = decodeFile(new Uint8Array(await file.arrayBuffer())).text;
      setUnread("");
      onText(area.current.value);
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      setUnread(`${file.name}: ${cause.message} ${cause.remedy}`);
    }
  };
  return (
    <>
      <FieldFrame id={id} label="The file's text" hint={hint} error={error}>
        <textarea
          key={seq}
          ref={area}
          id={id}
          name="csv"
          rows={8}
          defaultValue={value}
          spellCheck={false}
          onChange={(event) => onText(event.currentTarget.value)}
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(id, hint, error)}
          className={`${CONTROL} whitespace-pre py-2 font-mono text-[14px]`}
        />
      </FieldFrame>
      <FieldFrame id={`${id}-file`} label="Or choose the file" hint="It is read into the text above.">
        <input
          id={`${id}-file`}
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={(event) => take(event.currentTarget.files?.[0])}
          className="w-full max-w-full text-[14px] file:mr-3 file:min-h-11 file:rounded-[3px] file:border file:border-edge file:border-solid file:bg-transparent file:px-4 file:font-semibold file:text-ink pointer-coarse:file:min-h-12"
        />
      </FieldFrame>
    </>
  );
}
