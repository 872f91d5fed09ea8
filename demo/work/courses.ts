/** A course of events: yields the moment of its next act, and acts once it is that moment's turn. */
export type Course = AsyncGenerator<Date, void, void>;

/** Plays courses together in the order of their moments, up to `until`; what lies beyond has not happened yet. */
export async function playCourses(courses: readonly Course[], until: Date): Promise<void> {
  const waiting: { at: number; course: Course }[] = [];
  const goOn = async (course: Course, from: number) => {
    const next = await course.next();
    if (next.done) return;
    const at = next.value.getTime();
    if (at < from)
      throw new Error(
        `A course goes back from ${new Date(from).toISOString()} to ${next.value.toISOString()}.`,
      );
    waiting.push({ at, course });
  };
  for (const course of courses) await goOn(course, 0);
  for (;;) {
    const first = waiting.reduce<number>(
      (best, one, at) => (best < 0 || one.at < (waiting[best]?.at ?? 0) ? at : best),
      -1,
    );
    const turn = waiting[first];
    if (!turn || turn.at > until.getTime()) return;
    waiting.splice(first, 1);
    await goOn(turn.course, turn.at);
  }
}
