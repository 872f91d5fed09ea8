import { z } from "zod";
import { formId } from "./ids";

export const JudgeLessonSchema = z.object({
  lessonId: formId(),
  act: z.enum(["release", "takeOut", "putBack"], "Choose what to do with the lesson."),
  why: z
    .string("Say why.")
    .trim()
    .min(3, "Say why, in a few words.")
    .max(300, "Keep this under 300 characters."),
});
export type JudgeLessonInput = z.output<typeof JudgeLessonSchema>;
