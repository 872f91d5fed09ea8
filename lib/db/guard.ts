/**
 * The guard of a write: waits for an `updateMany` or `deleteMany` whose `where` names the row with the state and version it was
 * seen in, and throws what `otherwise` says unless it changed that one row.
 */
export async function demandOne(
  written: PromiseLike<{ count: number }>,
  otherwise: () => Error | Promise<Error>,
): Promise<void> {
  const { count } = await written;
  if (count !== 1) throw await otherwise();
}
