"use client";
import { useRouter } from "next/navigation";
import { startTransition, useEffect, useEffectEvent, useRef, useState } from "react";
import { CheckField } from "@/app/_ui/CheckField";
import { Refused } from "@/app/_ui/Refused";
import { Shape } from "@/app/_ui/Shape";
import { useGuardedAction } from "@/app/_ui/useGuardedAction";
import { tickOptions } from "../actions";

export interface TickOption {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly ticked: boolean;
  readonly fixed: boolean;
  readonly because: string;
  readonly figure: string;
  readonly notes: readonly { readonly text: string; readonly short: boolean }[];
}

export interface TickGroup {
  readonly key: string;
  readonly name: string;
  readonly how: string;
  readonly choose: "exactly one" | "at most one" | "any";
  /** The work it is of, said where several have something to choose; else empty. */
  readonly work: string;
  readonly options: readonly TickOption[];
}

interface Tick {
  readonly key: string;
  readonly on: boolean;
}

interface Props {
  slug: string;
  hidden: { readonly id: string; readonly version: string };
  groups: readonly TickGroup[];
}

/** The options as ticks. Each tick is sent at once; ticks made while one is on its way are sent after it, none is lost. */
export function OptionTicks({ slug, hidden, groups }: Props) {
  const { id, version } = hidden;
  const [state, run, pending] = useGuardedAction(tickOptions);
  // Ticks made since the last answer, newest last; `sent` of them are under way.
  const [made, setMade] = useState<readonly Tick[]>([]);
  const sent = useRef(0);
  const router = useRouter();
  const options = groups.flatMap((group) => group.options);
  const after = (ticks: readonly Tick[], option: TickOption) =>
    ticks.findLast((tick) => tick.key === option.key)?.on ?? option.ticked;

  /** Of a group where one is chosen, the newest tick takes the place of the one before, as the answer will. */
  const shown = ({ choose, options: all }: TickGroup, option: TickOption) => {
    const newest =
      choose === "any" ? undefined : made.findLast(({ key, on }) => on && all.some((one) => one.key === key));
    return after(made, option) && (newest === undefined || newest.key === option.key);
  };

  const send = (ticks: readonly Tick[]) => {
    sent.current = ticks.length;
    const data = new FormData();
    const fixed = { _shop: slug, id, version, touched: ticks.at(-1)?.key ?? "" };
    for (const [name, value] of Object.entries(fixed)) data.set(name, value);
    for (const option of options) if (after(ticks, option)) data.append("choices[]", option.key);
    startTransition(() => run(data));
  };
  const tick = (key: string, on: boolean) => {
    const ticks = [...made, { key, on }];
    setMade(ticks);
    if (!pending) send(ticks);
  };
  const answered = useEffectEvent((answer: typeof state) => {
    if (answer.seq === 0) return;
    if (answer.ok === false) {
      setMade([]);
      router.refresh();
      return;
    }
    const later = made.slice(sent.current);
    setMade(later);
    if (later.length > 0) send(later);
  });
  useEffect(() => answered(state), [state]);

  return (
    <form
      action={run}
      aria-label="Options"
      aria-busy={pending || undefined}
      // A browser that put back what stood here before a reload would tick what was taken off since.
      autoComplete="off"
      className="min-w-0"
    >
      {state.ok === false && state.message && <Refused message={state.message} remedy={state.remedy} />}
      <input type="hidden" name="_shop" value={slug} readOnly />
      <input type="hidden" name="id" value={id} readOnly />
      <input type="hidden" name="version" value={version} readOnly />
      {groups.map((group, at) => {
        const many = group.choose === "any";
        const on = group.options.find((option) => shown(group, option));
        return (
          <fieldset key={group.key} className="mb-4 min-w-0">
            {group.work !== "" && group.work !== groups[at - 1]?.work && (
              <p className="mb-1 font-semibold">{group.work}</p>
            )}
            <legend className="text-[14px] text-soft">
              {group.name}
              {group.how && `, ${group.how}`}
            </legend>
            {group.options.map((option) => (
              <CheckField
                key={option.key}
                one={!many}
                name={many ? "choices[]" : `one.${at}`}
                value={option.key}
                label={option.name}
                figure={option.figure}
                shown={shown(group, option)}
                disabled={option.fixed}
                ruled
                detail={<Detail option={option} />}
                onChange={(ticked) => tick(option.key, ticked)}
              />
            ))}
            {group.choose === "at most one" && !on?.fixed && (
              <CheckField
                one
                name={`one.${at}`}
                value=""
                label="None of these"
                shown={on === undefined}
                ruled
                onChange={() => on && tick(on.key, false)}
              />
            )}
          </fieldset>
        );
      })}
      <noscript>
        <button type="submit" className="min-h-11 border border-ink px-4 font-semibold">
          Compute again
        </button>
      </noscript>
    </form>
  );
}

function Detail({ option }: { option: TickOption }) {
  return (
    <>
      {option.because || option.plain}
      {option.notes.map((note) => (
        <span key={note.text} className={note.short ? "flex items-baseline gap-1.5 text-oxide" : "block"}>
          {note.short && <Shape shape="diamond" tone="oxide" />}
          <span>{note.text}</span>
        </span>
      ))}
    </>
  );
}
