import type { KeptAct, RefusedAct } from "./acts";

/** What became of sending one act. */
export type SendAnswer =
  | { readonly is: "done" }
  /** No answer, or none that says whether it was done: the same is sent again. */
  | { readonly is: "lost" }
  | { readonly is: "signedOut" }
  /** The person no longer belongs to the shop. */
  | { readonly is: "removed" }
  | { readonly is: "refused"; readonly refused: RefusedAct };

/** How a queue goes on after an answer: with the next act, later, after signing in, or not at all. */
export type GoOn = "on" | "later" | "signIn" | "clear";

/**
 * What a person decides about a refused act: what the shop has counts, theirs is kept as a note beside it, it is sent again, or it is
 * sent again with their word that they worked until then.
 */
export type Decision = "theirs" | "note" | "again" | "worked";

const inOrder = (acts: readonly KeptAct[]) => [...acts].sort((a, b) => a.seq - b.seq);

/**
 * The act to send next: the oldest that is not refused and has no refused act of its own job before it. Acts of one job keep
 * their order; those of other jobs go on beside it. Undefined where nothing can be sent.
 */
export function nextToSend(acts: readonly KeptAct[]): KeptAct | undefined {
  const held = new Set<number>();
  for (const act of inOrder(acts)) {
    if (act.refused) held.add(act.jobId);
    else if (!held.has(act.jobId)) return act;
  }
  return undefined;
}

/** The queue once an act was answered, and how it goes on. Only what is done leaves it. */
export function afterAnswer(
  acts: readonly KeptAct[],
  seq: number,
  answer: SendAnswer,
): { readonly acts: readonly KeptAct[]; readonly go: GoOn } {
  switch (answer.is) {
    case "done":
      return { acts: acts.filter((act) => act.seq !== seq), go: "on" };
    case "refused":
      return {
        acts: acts.map((act) => (act.seq === seq ? { ...act, refused: answer.refused } : act)),
        go: "on",
      };
    case "removed":
      return { acts: [], go: "clear" };
    case "signedOut":
      return { acts, go: "signIn" };
    case "lost":
      return { acts, go: "later" };
  }
}

/** Longest note that the card takes, in characters. */
const NOTE_LENGTH = 1000;

/** A refused act in words, to stand as a note at its step. */
export function asNote(act: KeptAct): string {
  const lines = [`Not taken over from a device: ${act.said}`, ...(act.refused?.mine ?? [])];
  return lines.join("\n").slice(0, NOTE_LENGTH);
}

/**
 * The queue once a person has decided about a refused act. A note takes its place in the order, under `noteKey`; sent again it
 * keeps its own key, since nothing was stored under it. A note needs a step: an act without one cannot become one and stays.
 */
export function decide(
  acts: readonly KeptAct[],
  seq: number,
  decision: Decision,
  noteKey: string,
): readonly KeptAct[] {
  return acts.flatMap((act) => {
    if (act.seq !== seq || !act.refused) return [act];
    if (decision === "theirs") return [];
    if (decision === "again") return [{ ...act, refused: null }];
    if (decision === "worked")
      return [{ ...act, fields: [...act.fields, ["worked", "yes"] as const], refused: null }];
    if (act.stepId === null) return [act];
    return [
      {
        ...act,
        key: noteKey,
        act: "noteStep" as const,
        said: `Note: ${act.said}`,
        fields: [
          ["stepId", String(act.stepId)],
          ["text", asNote(act)],
        ] as const,
        stops: false,
        bytes: 0,
        refused: null,
      },
    ];
  });
}
