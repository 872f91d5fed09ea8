"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { binText } from "@/lib/domain/stock/bins";
import { chosen } from "@/lib/schemas/stock";
import { receivePart, usePart } from "../actions";

export interface TapActsProps {
  shop: string;
  partId: number;
  unit: string;
  free: boolean;
  /** Where it lies, the usual one first. */
  bins: readonly string[];
  mayUse: boolean;
  mayWrite: boolean;
  promises: readonly { id: number; job: number; title: string }[];
}

/** One tap each: use one for a job that holds it, use one that is free, receive one. */
export function TapActs({ shop, partId, unit, free, bins, mayUse, mayWrite, promises }: TapActsProps) {
  const one = unit === "each" ? "1" : `1 ${unit}`;
  const hidden = { partId: String(partId), quantity: "1" };
  return (
    <div className="grid gap-3">
      {mayUse &&
        promises.map((row) => (
          <Form
            key={row.id}
            action={usePart}
            shop={shop}
            hidden={{ ...hidden, reservationId: String(row.id) }}
            label={`Use for job ${row.job}`}
          >
            <SubmitButton size="act" className="w-full">
              Use {one} for job {row.job}
            </SubmitButton>
            <p className="mt-0.5 text-[14px] text-soft">{row.title}</p>
          </Form>
        ))}
      {mayUse &&
        free &&
        (bins.length > 1 ? bins : [null]).map((bin) => (
          <Form
            key={bin}
            action={usePart}
            shop={shop}
            hidden={{ ...hidden, why: "scanned, for no job", ...(bin === null ? {} : { from: chosen(bin) }) }}
            label={bin === null ? "Use without a job" : `Use without a job from ${binText(bin)}`}
          >
            <SubmitButton size="act" tone="second" className="w-full">
              Use {one}, for no job{bin !== null && `, from ${binText(bin)}`}
            </SubmitButton>
          </Form>
        ))}
      {mayWrite && (
        <Form action={receivePart} shop={shop} hidden={{ ...hidden, why: "scanned" }} label="Receive">
          <SubmitButton size="act" tone="second" className="w-full">
            Receive {one}
          </SubmitButton>
        </Form>
      )}
    </div>
  );
}
