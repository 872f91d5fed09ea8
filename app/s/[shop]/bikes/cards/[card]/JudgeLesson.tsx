"use client";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { judge } from "../actions";

const ACTS = {
  release: { button: "Release to the card", text: "It will teach every bike of the model." },
  takeOut: { button: "Take out", text: "It will count for no bike. It can be put back." },
  putBack: { button: "Put back", text: "It will count again." },
} as const;

/** What is decided of a lesson, and why. */
export function JudgeLesson({ slug, lesson, act }: { slug: string; lesson: number; act: keyof typeof ACTS }) {
  const { button, text } = ACTS[act];
  return (
    <Dialog trigger={button} triggerTone="quiet" title={button}>
      <Form action={judge} shop={slug} hidden={{ lessonId: String(lesson), act }} label={button}>
        <p className="mb-3">{text}</p>
        <TextField name="why" label="Why" required maxLength={300} />
        <SubmitButton>{button}</SubmitButton>
      </Form>
    </Dialog>
  );
}
